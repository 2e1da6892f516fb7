/**
 * A round on this phone, from its beginning until it is closed: kept with every step, so that a reload or a page killed
 * behind the camera resumes at the lot. Pure: from one state of the walk to the next.
 *
 * Each lot passed is kept at once as an entry of its own; the draft only remembers which. Nothing is lost with it but
 * what the hand had not kept yet and the closing line.
 */
import type { Id } from '../../ledger/index.ts';
import { takeUp, type LotInHand } from './lotstep.ts';
import type { LookPlan } from './sample.ts';

export const DRAFT_KIND = 'round';
export const draftId = (round: Id): string => `round:${round}`;

/** Longest pause that still counts as walking. [ms] */
const LONGEST_PAUSE_MS = 10 * 60_000;

/** Numbers read off the dials so far, in the wire's units; a number nobody touched is not here. */
export interface AirInHand {
  readonly temp_c?: number;
  readonly rh_pct?: number;
  readonly low_c?: number;
  readonly high_c?: number;
  /** An odd reading was asked about once and stands. */
  readonly asked?: boolean;
}

/** What the last act wrote: told on the next lot, and struck by "undo". */
export type KeptWhat =
  | { readonly what: 'sound'; readonly looked?: number }
  | { readonly what: 'seen'; readonly out: number; readonly trimmed: number; readonly left: number }
  | { readonly what: 'not_looked'; readonly why: 'out_of_reach' | 'no_time' }
  | { readonly what: 'gone' }
  | { readonly what: 'suspect'; readonly lies: 'held' | 'set_apart' }
  | { readonly what: 'decided'; readonly on: string };

export interface Kept {
  readonly told: KeptWhat;
  readonly entries: readonly Id[];
  /** The lot as it was in the hand before. */
  readonly before: LotInHand;
}

export interface Passed {
  readonly lot: Id;
  readonly told: KeptWhat;
  readonly entries: readonly Id[];
}

export interface Walk {
  readonly round: Id;
  readonly space: Id;
  readonly began_at: string;
  readonly writer: Id;
  /** Others who walk along. */
  readonly with: readonly Id[];
  /** A walk for the minutes one has. */
  readonly minutes?: number;
  /** In the order they are walked. */
  readonly lots: readonly Id[];
  readonly page: 'air' | 'lot' | 'end';
  readonly air: AirInHand;
  readonly hand?: LotInHand;
  readonly passed: readonly Passed[];
  readonly kept?: Kept;
  /** Entries that belong to no lot's passing: the reading, suspects, decisions, in order. */
  readonly beside: readonly Id[];
  readonly ended_at?: string;
  /** The closing line is written; an undo afterwards does not write it again. */
  readonly closed?: boolean;
  /** Time walked, pauses left out. [ms] */
  readonly spent_ms: number;
  readonly at: string;
}

export interface Beginning {
  readonly round: Id;
  readonly space: Id;
  readonly now: string;
  readonly writer: Id;
  readonly with: readonly Id[];
  readonly minutes?: number;
  readonly lots: readonly Id[];
}

export const begin = ({ round, space, now, writer, with: along, minutes, lots }: Beginning): Walk => ({
  round,
  space,
  began_at: now,
  writer,
  with: along,
  ...(minutes === undefined ? {} : { minutes }),
  lots,
  page: 'air',
  air: {},
  passed: [],
  beside: [],
  spent_ms: 0,
  at: now,
});

/** Every step: the time since the one before is walked time, unless it was a pause. */
const stepped = (walk: Walk, now: string): Walk => {
  const pause = Date.parse(now) - Date.parse(walk.at);
  return { ...walk, at: now, spent_ms: walk.spent_ms + (pause > 0 && pause <= LONGEST_PAUSE_MS ? pause : 0) };
};

const without = <T extends object, Name extends keyof T>(whole: T, name: Name): Omit<T, Name> => {
  const kept = Object.entries(whole).filter(([field]) => field !== name);
  return Object.fromEntries(kept) as Omit<T, Name>;
};

export const setAir = (walk: Walk, air: AirInHand): Walk => ({ ...walk, air });
export const setAlong = (walk: Walk, along: readonly Id[]): Walk => ({ ...walk, with: along });
/** Before the first lot: which lots, and the minutes they were chosen for; without, all of them. */
export const setLots = (walk: Walk, lots: readonly Id[], minutes?: number): Walk =>
  walk.page !== 'air'
    ? walk
    : { ...without(walk, 'minutes'), lots, ...(minutes === undefined ? {} : { minutes }) };
export const setHand = (walk: Walk, hand: LotInHand): Walk => ({ ...walk, hand });

/** Lots not passed yet, in order; the one in the hand first. */
export const toCome = (walk: Walk): readonly Id[] => {
  const done = new Set(walk.passed.map(({ lot }) => lot));
  return walk.lots.filter((lot) => !done.has(lot));
};

/** "Lot 3 of 7". */
export const place = (walk: Walk): { readonly at: number; readonly of: number } => ({
  at: Math.min(walk.passed.length + 1, walk.lots.length),
  of: walk.lots.length,
});

type PlanOf = (lot: Id) => LookPlan;

/** The next lot in the hand, or the end. */
function onward(walk: Walk, plan: PlanOf, now: string): Walk {
  const next = toCome(walk)[0];
  const rest = without(walk, 'hand');
  return next === undefined
    ? { ...rest, page: 'end', ended_at: walk.ended_at ?? now }
    : { ...rest, page: 'lot', hand: takeUp(next, plan(next)) };
}

/** Past the dials, with a reading or none. */
export const goIn = (walk: Walk, reading: Id | undefined, plan: PlanOf, now: string): Walk =>
  onward(
    { ...stepped(walk, now), beside: reading === undefined ? walk.beside : [...walk.beside, reading] },
    plan,
    now,
  );

/** The lot in the hand is passed: its entries are kept, the next one is taken up. */
export function pass(walk: Walk, done: Omit<Kept, 'before'>, plan: PlanOf, now: string): Walk {
  if (walk.hand === undefined) return walk;
  const { told, entries } = done;
  const passed = [...walk.passed, { lot: walk.hand.lot, told, entries }];
  return onward({ ...stepped(walk, now), passed, kept: { ...done, before: walk.hand } }, plan, now);
}

/** A suspect is kept; the lot itself is not passed yet. */
export function setApart(walk: Walk, suspect: Id, lies: 'held' | 'set_apart', now: string): Walk {
  if (walk.hand === undefined) return walk;
  const before = walk.hand;
  const hand: LotInHand = { ...without(before, 'unsure'), page: 'look' };
  const kept: Kept = { told: { what: 'suspect', lies }, entries: [suspect], before };
  return { ...stepped(walk, now), hand, kept, beside: [...walk.beside, suspect] };
}

/** A decision made on the walk stands beside it in the summary; `on` is what was decided, in the words of the wire. */
export function decided(walk: Walk, decision: Id, on: string): Walk {
  const beside = [...walk.beside, decision];
  if (walk.hand === undefined) return { ...walk, beside };
  return { ...walk, beside, kept: { told: { what: 'decided', on }, entries: [decision], before: walk.hand } };
}

/** The last act is struck out: the lot is in the hand again, as it was. */
export function undo(walk: Walk, now: string): Walk {
  const kept = walk.kept;
  if (kept === undefined) return walk;
  const struck = new Set(kept.entries);
  const rest = without(without(stepped(walk, now), 'kept'), 'ended_at');
  return {
    ...rest,
    page: 'lot',
    hand: kept.before,
    passed: walk.passed.filter(({ lot }) => lot !== kept.before.lot),
    beside: walk.beside.filter((entry) => !struck.has(entry)),
  };
}

/** The next act begins: what was kept last can be undone no longer from here. */
export const settle = (walk: Walk): Walk => (walk.kept === undefined ? walk : without(walk, 'kept'));

/** Ended before the last lot: what was not passed stays due. */
export const end = (walk: Walk, now: string): Walk => ({
  ...without(stepped(walk, now), 'hand'),
  page: 'end',
  ended_at: walk.ended_at ?? now,
});

/**
 * Gone on with after a pause: lots that are finished, moved away or looked at by someone else since fall out; the one
 * in the hand stays as it was set.
 */
export function resume(walk: Walk, still_there: (lot: Id) => boolean, plan: PlanOf, now: string): Walk {
  const passed = new Set(walk.passed.map(({ lot }) => lot));
  const lots = walk.lots.filter((lot) => passed.has(lot) || still_there(lot));
  const resumed = { ...walk, lots, at: now };
  if (walk.page !== 'lot' || (walk.hand !== undefined && lots.includes(walk.hand.lot))) return resumed;
  return onward(resumed, plan, now);
}

/** Begun and not at its end. */
export const isOpen = (walk: Walk): boolean => walk.page !== 'end';

/** So long after its last step a round begun and left is closed without a word. */
const STALE_MS = 20 * 3_600_000;

export const isStale = (walk: Walk, now: string): boolean => Date.parse(now) - Date.parse(walk.at) > STALE_MS;

export const minutesSpent = (walk: Walk): number => Math.max(1, Math.round(walk.spent_ms / 60_000));
