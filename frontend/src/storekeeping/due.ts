/**
 * When a lot is to be looked over again (fold F17). Days are ISO dates as text, as in entries.
 * Twin: `homestead/storekeeping/due.py`; both run `fixtures/vectors/due*.json`.
 */

import type { LookingOver, Rules } from './rules.ts';

/** Days between looks at a crop that no table knows: a week, the project's own figure. */
const OWN_CROP_DAYS = 7;
/** Days after it was made that a roster's days hold for a look made since; ours. */
const ROSTER_HOLDS_DAYS = 14;
const MS_A_DAY = 86_400_000;

export type Hemisphere = 'north' | 'south';

/** Month a winter begins: 1 August; south 1 February. */
const WINTER_BEGINS: Readonly<Record<Hemisphere, number>> = { north: 8, south: 2 };

/**
 * What due asks of a lot. `last_look`: last look, count or birth; `roster_days`: what the roster sheet gives it,
 * `roster_on`: the day that sheet is of.
 */
export interface Watched {
  readonly put_away_on: string;
  readonly last_look: string;
  readonly look_on?: string | null;
  readonly roster_days?: number | null;
  readonly roster_on?: string | null;
  readonly finished?: boolean;
}

/**
 * The day the lot is due, null if finished. The roster's days hold where it gives any, unless it is older than the last
 * look by over two weeks, and no later than the last day in time by the crop's interval; else that interval; without one
 * 7 days. A day asked for (`look_on`) brings it forward, never back.
 */
export function due_of_lot(
  interval: LookingOver | null,
  lot: Watched,
  hemisphere: Hemisphere = 'north',
): string | null {
  if (lot.finished) return null;
  const due = by_roster(by_interval(interval, lot, hemisphere), lot);
  return lot.look_on && lot.look_on < due ? lot.look_on : due;
}

/** A space is due with its first lot; null when nothing in it is. */
export function due_of_space(due_days: Iterable<string | null>): string | null {
  let first: string | null = null;
  for (const day of due_days) if (day !== null && (first === null || day < first)) first = day;
  return first;
}

/** 0 on the day and before; 2 two days after. */
export function days_late(due: string | null, today: string): number {
  return due === null ? 0 : Math.max(0, (Date.parse(today) - Date.parse(due)) / MS_A_DAY);
}

/** The crop's row of looking_over. */
export function interval_of(rules: Rules, crop: string): LookingOver | null {
  return rules.looking_over[crop] ?? null;
}

/** Days a look may be late of an interval of so many: a quarter, or three of six and more. Ours, no source. */
export const spare_days = (days: number): number =>
  Math.max(Math.min(3, Math.floor(days / 2)), Math.floor(days / 4));

function by_roster(by_table: string, { last_look, roster_days, roster_on }: Watched): string {
  if (roster_days === null || roster_days === undefined) return by_table;
  if (roster_on && last_look > after(roster_on, ROSTER_HOLDS_DAYS)) return by_table;
  const days = (Date.parse(by_table) - Date.parse(last_look)) / MS_A_DAY;
  const latest = after(by_table, spare_days(days));
  const asked = after(last_look, roster_days);
  return asked < latest ? asked : latest;
}

/** The first day on which the interval in force has passed: a month that turns late brings it forward. */
function by_interval(interval: LookingOver | null, lot: Watched, hemisphere: Hemisphere): string {
  if (interval === null) return after(lot.last_look, OWN_CROP_DAYS);
  const late_from = late_from_day(interval, lot.put_away_on, hemisphere);
  const early = after(lot.last_look, interval.every_days);
  if (early < late_from) return early;
  const late = after(lot.last_look, interval.every_days_late);
  return late < late_from ? late_from : late;
}

/** A day is a date without a time: reckoned in UTC, where every day has the same length. */
function after(day: string, days: number): string {
  return new Date(Date.parse(day) + days * MS_A_DAY).toISOString().slice(0, 10);
}

/** First day of the lot's winter on which the late interval holds; south six months on. */
function late_from_day(interval: LookingOver, put_away_on: string, hemisphere: Hemisphere): string {
  const begins = WINTER_BEGINS[hemisphere];
  const put_away_month = Number(put_away_on.slice(5, 7));
  const year = Number(put_away_on.slice(0, 4)) - (put_away_month >= begins ? 0 : 1);
  const north = interval.late_from_month;
  const month = hemisphere === 'south' ? ((north + 5) % 12) + 1 : north;
  return `${month >= begins ? year : year + 1}-${String(month).padStart(2, '0')}-01`;
}
