/**
 * A lot while its entries are gone through: what is there, what left, what was seen.
 *
 * Twin: `homestead/storekeeping/lot.py`.
 */
import { type Both, type Maybe, NEAR, ratio_of } from './amounts.ts';
import type { Event } from './order.ts';
import type { WentBody } from './shapes.ts';
import type { Bucket, Flag, LotState, Measure, Way } from './state.ts';

export const BUCKETS: Readonly<Record<Way, Bucket>> = {
  raw: 'eaten',
  cook: 'eaten',
  pot: 'eaten',
  animals: 'shrink',
  compost: 'shrink',
  bin: 'shrink',
  lost: 'shrink',
  dried: 'shrink',
  eaten: 'eaten',
  given: 'given',
  seed: 'seed',
  cured: 'cured',
  moved: 'moved',
  put_by: 'put_by',
  unknown: 'unknown',
  found: 'found',
};

/** One row of what went where, before it is written out for people. `went`: the W it came from, if any. */
export interface Row extends Both {
  readonly event: Event;
  readonly way: Way;
  readonly went: Partial<WentBody>;
  readonly findings: readonly string[];
  readonly unwritten: boolean;
}

const NO_WENT: Partial<WentBody> = {};
const NO_FINDINGS: readonly string[] = [];

export function row(
  event: Event,
  way: Way,
  pieces: Maybe,
  grams: Maybe,
  went: Partial<WentBody> = NO_WENT,
  findings: readonly string[] = NO_FINDINGS,
  unwritten = false,
): Row {
  return { event, way, pieces, grams, went, findings, unwritten };
}

/** A finding that stands on a lot. pieces null: not numbered. */
export interface Seen {
  readonly event: Event;
  readonly finding: string;
  readonly pieces: Maybe;
  readonly looked: Maybe;
}

export type EventOf<K extends Event['kind']> = Extract<Event, { readonly kind: K }>;

export interface Decided {
  readonly event: EventOf<'decision'>;
  done: boolean;
}

/** A suspect and what was decided about it. */
export interface Doubt {
  readonly event: EventOf<'suspect'>;
  readonly pieces: number;
  readonly grams: Maybe;
  readonly decisions: Decided[];
  gone: boolean;
  closed: boolean;
}

/** What a lot is born with (F4, F5, F15). */
export interface Origin extends Both {
  readonly birth: EventOf<'put_away' | 'put_by' | 'move'>;
  readonly parent: string | null;
  readonly crop: string;
  readonly variety: string | null;
  readonly label: string | null;
  readonly code: string | null;
  readonly method: string | null;
  readonly space: string;
  readonly spot: string | null;
  readonly pack: string | null;
  readonly put_away_day: number;
  readonly cures_until: string | null;
  readonly curing: boolean;
  readonly keeps_until: string | null;
  readonly ratio: Maybe;
  readonly own_measure: Measure;
  readonly counted: boolean;
  readonly count_measure: Measure;
  readonly standing: readonly Seen[];
}

/** The running state. Below nought stays in the sums (F12); null is not known. */
export class Lot {
  readonly origin: Origin;
  space: string;
  spot: string | null;
  pack: string | null;
  curing: boolean;
  pieces: Maybe;
  grams: Maybe;
  ratio: Maybe;
  own_measure: Measure;
  whole: boolean;
  asks_count = false;
  finished = false;
  counted_well = true;
  seed: Both = { pieces: 0, grams: 0 };
  seed_treated = false;
  readonly rows: Row[] = [];
  readonly takes: (Both & { readonly day: number })[] = [];
  readonly suspects = new Map<string, Doubt>();
  standing: readonly Seen[];
  readonly parts = new Map<string, Origin>();
  readonly flags = new Map<string, Flag[]>();
  readonly shown_only = new Set<string>();
  readonly placed: Set<string>;
  last_look: Event;
  last_entry: Event;
  last_count: Event | null;
  /** The last entry by F2 that has its turn here. */
  last_placed: Event;

  constructor(origin: Origin) {
    const { birth } = origin;
    this.origin = origin;
    this.space = origin.space;
    this.spot = origin.spot;
    this.pack = origin.pack;
    this.curing = origin.curing;
    this.pieces = origin.pieces;
    this.grams = origin.grams;
    this.ratio = origin.ratio;
    this.own_measure = origin.own_measure;
    this.whole = origin.grams !== null;
    this.standing = origin.standing;
    this.placed = new Set([birth.id]);
    this.last_look = this.last_entry = this.last_placed = birth;
    this.last_count = origin.counted ? birth : null;
  }

  get id(): LotState['id'] {
    return this.origin.birth.id;
  }

  flag(event: Event, flag: Flag): void {
    const flags = this.flags.get(event.id);
    if (flags === undefined) this.flags.set(event.id, [flag]);
    else if (!flags.includes(flag)) flags.push(flag);
  }

  /** The entry changes nothing here and stays readable. */
  only_show(event: Event, flag: Flag): void {
    this.shown_only.add(event.id);
    this.flag(event, flag);
  }

  /**
   * F6: take an amount out. A measure that is there and cannot be moved asks for a count.
   * known: the grams are all of what left.
   */
  lower(pieces: Maybe, grams: Maybe, known = true): void {
    if (this.pieces !== null) {
      if (pieces === null) this.asks_count = true;
      else this.pieces -= pieces;
    }
    if (this.grams !== null) {
      if (grams === null || !known) this.asks_count = true;
      if (grams !== null) this.grams -= grams;
    }
    this.ratio = ratio_of(this.pieces, this.grams, this.ratio);
  }

  /** F12, `last`: what left in all, the rest with it; what was short is found. The lot is finished. */
  empty(event: Event, pieces: Maybe, grams: Maybe): Both {
    const of_pieces = all_of(this.pieces, pieces);
    const of_grams = all_of(this.grams, grams);
    this.find(event, of_pieces.found, of_grams.found);
    this.pieces = this.grams = 0;
    this.finish();
    return { pieces: of_pieces.left, grams: of_grams.left };
  }

  find(event: Event, pieces: Maybe, grams: Maybe): void {
    if ((pieces ?? 0) > NEAR || (grams ?? 0) > NEAR) this.rows.push(row(event, 'found', pieces, grams));
  }

  /** Nothing is left: no count is asked for, suspects are closed. */
  finish(): void {
    this.finished = true;
    this.asks_count = false;
    for (const suspect of this.suspects.values()) suspect.closed ||= !suspect.gone;
  }

  /** F16: a change not written in the lot's own measure ends "counted". */
  written_in(body: Partial<Record<Measure, number>>): void {
    if (body[this.own_measure] === undefined) this.counted_well = false;
  }
}

/** One measure when nothing is left after it: what left, what was found. */
function all_of(there: Maybe, written: Maybe): { left: Maybe; found: Maybe } {
  if (there === null) return { left: written, found: null };
  const leaving = written ?? 0;
  return { left: Math.max(there, leaving), found: Math.max(leaving - there, 0) };
}
