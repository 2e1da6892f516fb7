/**
 * What leaves a lot and where it goes: take, cull, out, trim (F6, F8, F9, F12).
 *
 * Twin: `homestead/storekeeping/leaving.py`.
 */
import {
  type Both,
  filled,
  lacking,
  type Maybe,
  NEAR,
  pieces_shared,
  shared_out,
  weighed,
} from './amounts.ts';
import { type EventOf, type Lot, row } from './lot.ts';
import type { Event } from './order.ts';
import type { AmountBody, CutBody, OutBody, TakeBody, TrimmedBody } from './shapes.ts';
import type { Way } from './state.ts';

const TAKEN: Readonly<Record<TakeBody['for'], Way>> = { eat: 'eaten', give: 'given', seed: 'seed' };

type Leaving = AmountBody & { readonly last?: boolean };

/**
 * Takes an amount out, with `last` all that is there; what left in all, null where it is not known.
 *
 * Without grams of its own, those of the ways it went leave (F9). partly: the ways tell of a part only.
 */
export function leave(
  lot: Lot,
  event: Event,
  body: Leaving,
  ways: readonly { readonly grams?: number }[],
  partly = false,
): Both {
  lot.written_in(body);
  let { pieces, grams } = filled(body.pieces ?? null, body.grams ?? null, lot.ratio);
  let known = grams !== null;
  if (grams === null) {
    grams = weighed(ways);
    known = grams !== null && !partly && lacking(ways) === 0;
  }
  if (body.last === true) {
    known = known || lot.grams !== null;
    ({ pieces, grams } = lot.empty(event, pieces, grams));
  } else {
    lot.lower(pieces, grams, known);
  }
  return { pieces, grams: known ? grams : null };
}

/** To eat, to give away or for seed; what was tossed and trimmed goes its own way. */
export function take(lot: Lot, event: EventOf<'take'>): void {
  const { body } = event;
  const { trimmed } = body;
  const tossed = tossed_of(lot, body);
  const { pieces, grams } = leave(lot, event, body, trimmed === undefined ? [] : [trimmed], true);
  lot.takes.push({ day: event.day, pieces, grams });
  if (body.for === 'seed')
    lot.seed = { pieces: less(lot.seed.pieces, pieces), grams: less(lot.seed.grams, grams) };
  let rest = less(grams, tossed.grams);
  if (tossed.pieces > 0) lot.rows.push(row(event, 'compost', tossed.pieces, tossed.grams));
  if (trimmed !== undefined) rest = trim_off(lot, event, trimmed, trimmed.grams, rest);
  const for_use = less(pieces, tossed.pieces);
  if ((for_use ?? 0) > NEAR || (rest ?? 0) > NEAR) lot.rows.push(row(event, TAKEN[body.for], for_use, rest));
}

/** Pieces of the amount taken that were thrown on the compost, and their share of its weight (F9). */
function tossed_of(lot: Lot, body: TakeBody): { pieces: number; grams: Maybe } {
  const { pieces, grams } = filled(body.pieces ?? null, body.grams ?? null, lot.ratio);
  const tossed = body.tossed ?? 0;
  if (pieces === null || grams === null || pieces <= 0) return { pieces: tossed, grams: null };
  const of_these = Math.min(tossed, pieces);
  return { pieces: of_these, grams: (grams * of_these) / pieces };
}

/** Writes what was trimmed of an amount that left; what remains of that amount [g]. */
export function trim_off(lot: Lot, event: Event, trimmed: TrimmedBody, grams: number, left: Maybe): Maybe {
  let cut = grams;
  if (left !== null && grams > left + NEAR) {
    lot.flag(event, 'more');
    cut = left;
  }
  lot.rows.push(row(event, trimmed.step, null, cut, trimmed, trimmed.findings));
  return less(left, cut);
}

/** What remains, at least 0; what is not known takes nothing away. */
export function less(amount: Maybe, gone: Maybe): Maybe {
  return amount === null ? null : Math.max(amount - (gone ?? 0), 0);
}

export function cull(lot: Lot, event: EventOf<'cull'>): void {
  out(lot, event, event.body);
}

/** Pieces that left with their findings, over the ways they went. */
export function out(lot: Lot, event: Event, body: OutBody & Leaving): void {
  const { pieces, grams } = leave(lot, event, body, body.went);
  const shares = shared_out(grams, body.went);
  if (shares.more) lot.flag(event, 'more');
  const of_pieces = pieces_shared(pieces, shares.grams);
  body.went.forEach((way, i) => {
    lot.rows.push(row(event, way.step, of_pieces[i] ?? null, shares.grams[i] ?? null, way, body.findings));
  });
  clear_seen(lot, body.findings, pieces);
}

/** F18: what went out is gone from what stands. */
export function clear_seen(lot: Lot, findings: readonly string[], pieces: Maybe): void {
  if (lot.standing.length === 0) return;
  lot.standing = lot.standing
    .map((seen) => {
      if (!findings.includes(seen.finding)) return seen;
      return { ...seen, pieces: seen.pieces === null || pieces === null ? 0 : seen.pieces - pieces };
    })
    .filter((seen) => seen.pieces === null || seen.pieces > NEAR);
}

export function trim(lot: Lot, event: EventOf<'trim'>): void {
  cut_off(lot, event, event.body);
}

/** F8: part of some pieces cut off lowers grams, never pieces; without a weight it is only noted. */
export function cut_off(lot: Lot, event: Event, body: CutBody): void {
  const { cut } = body;
  const grams = cut.grams ?? null;
  lot.rows.push(row(event, cut.step, null, grams, cut, body.findings));
  if (lot.own_measure === 'grams' && grams === null) lot.counted_well = false;
  if (grams !== null && lot.grams !== null) lot.lower(0, grams);
}
