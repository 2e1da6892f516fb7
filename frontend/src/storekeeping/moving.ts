/** How lots begin, move and are parted or put by (F5, F10, F15). Twin: `homestead/storekeeping/moving.py`. */
import { filled, ratio_of, trimmed_shares } from './amounts.ts';
import { recount } from './counting.ts';
import { leave, trim_off } from './leaving.ts';
import { type EventOf, type Lot, type Origin, row } from './lot.ts';
import type { AmountBody } from './shapes.ts';
import type { CropFigures, Measure } from './state.ts';

type Figures = Readonly<Record<string, CropFigures>>;
type Told = Pick<Origin, 'variety' | 'label' | 'method' | 'cures_until' | 'curing' | 'keeps_until'>;

/** The measure written; of both that in which the crop is counted. */
function own_measure_of(body: AmountBody, count_measure: Measure): Measure {
  if (body.pieces !== undefined && body.grams !== undefined) return count_measure;
  return body.pieces === undefined ? 'grams' : 'pieces';
}

export function put_away_origin(event: EventOf<'put_away'>, figures: Figures): Origin {
  const { variety = null, cures_until = null } = event.body;
  return first_origin(event, figures, {
    variety,
    label: null,
    method: null,
    cures_until,
    curing: cures_until !== null,
    keeps_until: null,
  });
}

export function put_by_origin(event: EventOf<'put_by'>, figures: Figures): Origin {
  const { label, method, keeps_until = null } = event.body;
  return first_origin(event, figures, {
    variety: null,
    label,
    method,
    cures_until: null,
    curing: false,
    keeps_until,
  });
}

/** F5: the start of a lot that has no parent. */
function first_origin(event: EventOf<'put_away' | 'put_by'>, figures: Figures, told: Told): Origin {
  const { body } = event;
  const amount: AmountBody = body;
  const its_figures = figures[body.crop] ?? {};
  const piece_g = its_figures.piece_g ?? null;
  const { pieces, grams } = filled(amount.pieces ?? null, amount.grams ?? null, piece_g);
  const count_measure = its_figures.count_unit === 'kg' ? 'grams' : 'pieces';
  return {
    ...told,
    birth: event,
    parent: null,
    crop: body.crop,
    code: body.code ?? null,
    space: body.space,
    spot: ('spot' in body ? body.spot : undefined) ?? null,
    pack: body.pack ?? null,
    put_away_day: event.day,
    pieces,
    grams,
    ratio: ratio_of(pieces, grams, piece_g),
    own_measure: own_measure_of(amount, count_measure),
    counted: amount.measured !== 'guessed',
    count_measure,
    standing: [],
  };
}

export function move(lot: Lot, event: EventOf<'move'>): void {
  if (event.body.all) move_whole(lot, event);
  else move_part(lot, event);
}

/** The last one in order stands. Weighed or packed, curing is over; the first weighing tells the water. */
function move_whole(lot: Lot, event: EventOf<'move'>): void {
  const { body } = event;
  const weighed = body.pieces !== undefined || body.grams !== undefined;
  if (weighed) recount(lot, event, body, lot.curing ? 'cured' : 'unknown', lot.curing);
  if (weighed || body.pack !== undefined) lot.curing = false;
  lot.space = body.space;
  lot.spot = body.spot ?? null;
  lot.pack = body.pack ?? lot.pack;
}

/** Leaves here and is born there, with the same past and this entry's id. */
function move_part(lot: Lot, event: EventOf<'move'>): void {
  const { body } = event;
  const { ratio } = lot;
  const { pieces, grams } = leave(lot, event, body, []);
  lot.rows.push(row(event, 'moved', pieces, grams));
  lot.parts.set(event.id, {
    ...lot.origin,
    birth: event,
    parent: lot.id,
    code: body.code ?? null,
    space: body.space,
    spot: body.spot ?? null,
    pack: body.pack ?? lot.pack,
    curing: lot.curing && body.pack === undefined,
    pieces,
    grams,
    ratio: ratio_of(pieces, grams, ratio),
    own_measure: own_measure_of(body, lot.origin.count_measure),
    counted: body.measured !== 'guessed',
    standing: lot.standing,
  });
}

/** What this lot gave to a put-by; trimmings go their way, the rest is put by. */
export function put_by(lot: Lot, event: EventOf<'put_by'>): void {
  const { from, trimmed } = event.body;
  const shares = trimmed_shares(trimmed?.grams ?? 0, from);
  from.forEach((each, i) => {
    if (each.lot !== lot.id) return;
    const share = shares[i] ?? 0;
    const { pieces, grams } = leave(lot, event, each, trimmed === undefined ? [] : [{ grams: share }], true);
    const rest = trimmed === undefined ? grams : trim_off(lot, event, trimmed, share, grams);
    lot.rows.push(row(event, 'put_by', pieces, rest));
  });
}

/** F13: what is now kept for seed, 0 frees it. As written: the other measure follows the ratio later. */
export function set_aside(lot: Lot, event: EventOf<'set_aside'>): void {
  const { pieces = null, grams = null, treated = false } = event.body;
  const freed = (pieces ?? 0) === 0 && (grams ?? 0) === 0;
  lot.seed = freed ? { pieces: 0, grams: 0 } : { pieces, grams };
  lot.seed_treated = treated;
}
