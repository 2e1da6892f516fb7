/** What is due, by space: whose it is, how long it takes, in which order its lots are walked. Pure. */
import type { Id } from '../../ledger/index.ts';
import { days_late, due_of_lot, due_of_space, interval_of, type Hemisphere } from '../../storekeeping/due.ts';
import type { Rules } from '../../storekeeping/rules.ts';
import type { LotState } from '../../storekeeping/state.ts';
import { isOpen, place, toCome, type Walk } from './draft.ts';
import { lookPlan, type HowToLook } from './sample.ts';

type Day = string;

/** Opening the box, laying it back, the light: before a piece is looked at. [min] Common practice, no source. */
const MINUTES_A_LOT = 1;
/** The dials and the door. [min] Common practice, no source. */
const MINUTES_A_SPACE = 1;
/** Where no weight is known. [min] */
const MINUTES_UNWEIGHED = 2;

export interface LookingOver extends HowToLook {
  readonly minutes_per_10kg: number;
}

/** What the roster sheet gives: days between looks by lot and the day it is of, people by space. */
export interface Roster {
  readonly days: Readonly<Record<Id, number>>;
  readonly on: Readonly<Record<Id, Day>>;
  readonly who: Readonly<Record<Id, readonly Id[]>>;
}
export const NO_ROSTER: Roster = { days: {}, on: {}, who: {} };

/** What the walk is worked out from. */
export interface Underfoot {
  readonly today: Day;
  readonly hemisphere: Hemisphere;
  readonly rules: Rules;
  /** The crop of the tables a lot is judged as. */
  readonly crop_of: (lot: LotState) => string;
  readonly looking_over: (crop: string) => LookingOver | null;
  readonly spreads: (finding: string) => boolean;
  readonly lots: readonly LotState[];
  readonly spaces: readonly { readonly id: Id; readonly name: string }[];
  readonly roster: Roster;
  /** Rounds begun on this phone and not at their end. */
  readonly walks: readonly Walk[];
}

export interface Door {
  readonly space: Id;
  readonly name: string;
  readonly state: 'lit' | 'half' | 'shut';
  readonly due: Day;
  readonly late: number;
  /** Lots the walk would go to, in its order. */
  readonly lots: readonly Id[];
  readonly minutes: number;
  readonly whose: readonly Id[];
  /** A round begun on this phone. */
  readonly begun?: { readonly round: Id; readonly at: number; readonly of: number };
}

const watched = (lot: LotState, roster: Roster) => ({
  put_away_on: lot.put_away_day,
  last_look: lot.last_look.day,
  look_on: lot.look_on,
  roster_days: roster.days[lot.id] ?? null,
  roster_on: roster.on[lot.id] ?? null,
  finished: lot.finished,
});

export const dueOf = (lot: LotState, ground: Underfoot): Day | null =>
  due_of_lot(interval_of(ground.rules, ground.crop_of(lot)), watched(lot, ground.roster), ground.hemisphere);

const daysBetween = (from: Day, to: Day): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000);

/** Minutes for one lot, from the weight of the pieces that are to be looked at. */
export function minutesOf(lot: LotState, ground: Underfoot): number {
  const how = ground.looking_over(lot.crop);
  const { pieces, grams } = lot.shown;
  if (grams === null || how === null) return MINUTES_A_LOT + MINUTES_UNWEIGHED;
  const plan = lookPlan(how, pieces ?? undefined);
  const share = plan.there && plan.looked !== undefined ? Math.min(1, plan.looked / plan.there) : 1;
  return MINUTES_A_LOT + (how.minutes_per_10kg * share * grams) / 10_000;
}

/**
 * How much a lot stands to lose by waiting: looks overdue in shares of its own interval, more where something that
 * spreads was left in it or a suspect lies there. An order, not a forecast; ours, no source.
 */
export function riskOf(lot: LotState, ground: Underfoot): number {
  const due = dueOf(lot, ground);
  const interval = due === null ? 7 : Math.max(1, daysBetween(lot.last_look.day, due));
  const overdue = daysBetween(lot.last_look.day, ground.today) / interval;
  const spreading = lot.standing.some(({ finding }) => ground.spreads(finding));
  return overdue + (spreading ? 1 : lot.standing.length > 0 ? 0.5 : 0);
}

const by_spot = new Intl.Collator(undefined, { numeric: true }).compare;

/** Most at risk first; alike, the heavier first, then by spot. */
export const byRisk = (lots: readonly LotState[], ground: Underfoot): readonly LotState[] =>
  lots
    .map((lot) => ({ lot, risk: riskOf(lot, ground) }))
    .sort(
      ({ lot: a, risk: risk_a }, { lot: b, risk: risk_b }) =>
        risk_b - risk_a ||
        (b.shown.grams ?? 0) - (a.shown.grams ?? 0) ||
        by_spot(a.spot ?? '', b.spot ?? '') ||
        (a.id < b.id ? -1 : 1),
    )
    .map(({ lot }) => lot);

/** Lots due so soon after the first are walked with it, as in the roster. [days] */
const WALK_TOGETHER = 2;

const addDays = (day: Day, days: number): Day =>
  new Date(Date.parse(day) + days * 86_400_000).toISOString().slice(0, 10);

/**
 * Lots of a space as they are walked: those due by the day of the walk and within two days of it. Where none is (all
 * was looked at today), all of them: somebody wants to look again.
 */
export function lotsToWalk(space: Id, ground: Underfoot): readonly LotState[] {
  const there = ground.lots.filter((lot) => lot.space === space && !lot.finished);
  const first = due_of_space(there.map((lot) => dueOf(lot, ground)));
  const until = addDays(first !== null && first > ground.today ? first : ground.today, WALK_TOGETHER);
  const due = there.filter(
    (lot) => (dueOf(lot, ground) ?? until) <= until && lot.last_look.day < ground.today,
  );
  return byRisk(due.length > 0 ? due : there, ground);
}

/** Walked though nothing is due: all that nobody looked at today, or all. */
export function lotsAnyway(space: Id, ground: Underfoot): readonly LotState[] {
  const there = ground.lots.filter((lot) => lot.space === space && !lot.finished);
  const unseen = there.filter((lot) => lot.last_look.day < ground.today);
  return byRisk(unseen.length > 0 ? unseen : there, ground);
}

/** What a walk begun now goes to. */
export function lotsNow(space: Id, ground: Underfoot): readonly LotState[] {
  const first = due_of_space(
    ground.lots.filter((lot) => lot.space === space).map((lot) => dueOf(lot, ground)),
  );
  return first !== null && first <= ground.today ? lotsToWalk(space, ground) : lotsAnyway(space, ground);
}

/** Only so many minutes: from the front of the order, at least one lot. */
export function lotsWithin(
  lots: readonly LotState[],
  minutes: number,
  ground: Underfoot,
): readonly LotState[] {
  let spent = MINUTES_A_SPACE;
  const within: LotState[] = [];
  for (const lot of lots) {
    spent += minutesOf(lot, ground);
    if (within.length > 0 && spent > minutes) break;
    within.push(lot);
  }
  return within;
}

export const minutesFor = (lots: readonly LotState[], ground: Underfoot): number =>
  Math.max(1, Math.round(lots.reduce((sum, lot) => sum + minutesOf(lot, ground), MINUTES_A_SPACE)));

function doorOf(space: { readonly id: Id; readonly name: string }, ground: Underfoot): Door | undefined {
  const due = due_of_space(
    ground.lots.filter((lot) => lot.space === space.id).map((lot) => dueOf(lot, ground)),
  );
  if (due === null) return undefined;
  const walk = ground.walks.find((begun) => begun.space === space.id && isOpen(begun));
  const left = walk ? toCome(walk) : [];
  const ahead = walk
    ? left.map((id) => ground.lots.find((lot) => lot.id === id)).filter((lot) => lot !== undefined)
    : lotsToWalk(space.id, ground);
  const late = days_late(due, ground.today);
  return {
    space: space.id,
    name: space.name,
    state: walk ? 'half' : due <= ground.today ? 'lit' : 'shut',
    due,
    late,
    lots: ahead.map((lot) => lot.id),
    minutes: minutesFor(ahead, ground),
    whose: ground.roster.who[space.id] ?? [],
    ...(walk ? { begun: { round: walk.round, ...place(walk) } } : {}),
  };
}

/** Every space that holds something, the one due longest first. */
export function doorsOf(ground: Underfoot): readonly Door[] {
  return ground.spaces
    .map((space) => doorOf(space, ground))
    .filter((door) => door !== undefined)
    .sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : a.name.localeCompare(b.name)));
}

export const isDue = (door: Door, today: Day): boolean => door.due <= today || door.state === 'half';

/**
 * The door the one key opens for the one who holds the phone: a round begun here, else what is due and theirs, else
 * what is due and nobody's, else whatever is due.
 */
export function doorFor(me: Id | undefined, doors: readonly Door[], today: Day): Door | undefined {
  const due = doors.filter((door) => isDue(door, today));
  const mine = (door: Door) => me !== undefined && door.whose.includes(me);
  return (
    due.find((door) => mine(door) && door.state !== 'half') ??
    due.find((door) => door.state === 'half') ??
    due.find((door) => door.whose.length === 0) ??
    due[0]
  );
}
