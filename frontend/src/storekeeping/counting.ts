/** A count says what is there now; a look may be one (F10, F11). Twin: `homestead/storekeeping/counting.py`. */
import { type Both, filled, type Maybe, NEAR, ratio_of } from './amounts.ts';
import { cut_off, out } from './leaving.ts';
import { type EventOf, type Lot, row } from './lot.ts';
import type { Event } from './order.ts';
import type { AmountBody } from './shapes.ts';
import type { Way } from './state.ts';

/**
 * What is there now; the difference to before went the given way, below nought it is found.
 *
 * by_water: cured or dried, so that a weight alone leaves the pieces as they are.
 */
export function recount(lot: Lot, event: Event, body: AmountBody, way: Way, by_water = false): void {
  const before: Both = { pieces: lot.pieces, grams: lot.grams };
  let now: Both = { pieces: body.pieces ?? null, grams: body.grams ?? null };
  if (now.pieces !== null && now.grams !== null) {
    lot.own_measure = lot.origin.count_measure;
  } else {
    lot.own_measure = now.pieces === null ? 'grams' : 'pieces';
    now = there_now(lot, now.pieces, now.grams, by_water);
  }
  lot.pieces = now.pieces;
  lot.grams = now.grams;
  lot.ratio = ratio_of(now.pieces, now.grams, lot.ratio);
  lot.whole = lot.whole && now.grams !== null;
  tell_difference(lot, event, before, way);
  lot.last_count = lot.last_look = event;
  lot.counted_well = true;
  lot.asks_count = false;
  if (now.pieces === 0 && now.grams === 0) lot.finish();
}

/** One measure was counted: the other by the ratio, or 0 with it. */
function there_now(lot: Lot, pieces: Maybe, grams: Maybe, by_water: boolean): Both {
  if (pieces === 0 || grams === 0) return { pieces: 0, grams: 0 };
  if (by_water && pieces === null && lot.pieces !== null) return { pieces: lot.pieces, grams };
  return filled(pieces, grams, lot.ratio);
}

function tell_difference(lot: Lot, event: Event, before: Both, way: Way): void {
  const pieces = difference(before.pieces, lot.pieces);
  const grams = difference(before.grams, lot.grams);
  if ((pieces.gone ?? 0) > NEAR || (grams.gone ?? 0) > NEAR) {
    lot.rows.push(row(event, way, pieces.gone, grams.gone, undefined, undefined, way !== 'cured'));
  }
  lot.find(event, pieces.found, grams.found);
}

/** Of one measure: what is gone, what was found. */
function difference(before: Maybe, after: Maybe): { gone: Maybe; found: Maybe } {
  if (before === null || after === null) return { gone: null, found: null };
  return { gone: Math.max(before - after, 0), found: Math.max(after - before, 0) };
}

export function count(lot: Lot, event: EventOf<'count'>): void {
  const way = event.body.gone ?? 'unknown';
  recount(lot, event, event.body, way, way === 'dried');
}

/** A look: it counts pieces only where a person set the number (F11), then come outs and trims. */
export function inspection(lot: Lot, event: EventOf<'inspection'>): void {
  const { body } = event;
  if (body.space !== lot.space) lot.flag(event, 'other_space');
  if (body.way === 'none') return;
  let looked = body.looked ?? null;
  if (body.way === 'all') {
    if (body.counted && looked !== null) recount(lot, event, { pieces: looked }, 'unknown');
    looked ??= lot.pieces;
  }
  lot.last_look = event;
  lot.standing = (body.seen ?? [])
    .filter((seen) => seen.finding !== 'sound')
    .map((seen) => ({ event, finding: seen.finding, pieces: seen.pieces ?? null, looked }));
  for (const each of body.out ?? []) out(lot, event, each);
  for (const each of body.trims ?? []) cut_off(lot, event, each);
}
