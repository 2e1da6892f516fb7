/** When what cures is ready: between the table's fewest and most days, or on the day somebody set. Pure. */
import type { LotState } from '../../storekeeping/state';

export interface CureDays {
  readonly low: number;
  readonly high: number;
}
export interface Ready {
  readonly from: string;
  readonly until: string;
  /** Days it has cured. */
  readonly days: number;
}

const DAY_MS = 86_400_000;

export const days_on = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T12:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10);

export const days_from = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T12:00:00Z`) - Date.parse(`${from}T12:00:00Z`)) / DAY_MS);

/** Undefined for what cures no more. A day set by hand stands alone, unless it is the table's own last one. */
export function ready_of(
  lot: Pick<LotState, 'curing' | 'cures_until' | 'put_away_day'>,
  cure: CureDays | undefined,
  today: string,
): Ready | undefined {
  if (!lot.curing || lot.cures_until === null) return undefined;
  const until = lot.cures_until;
  const by_table = cure !== undefined && days_on(lot.put_away_day, cure.high) === until;
  const from = by_table ? days_on(lot.put_away_day, cure.low) : until;
  return { from, until, days: days_from(lot.put_away_day, today) };
}

/** The days so far, and the first day it may be ready, as shares of the way from the put-away day to the last one. */
export function curing_shape({ days, from, until }: Ready, since: string): { done: number; from: number } {
  const all = Math.max(1, days_from(since, until));
  const share = (part: number): number => Math.min(1, Math.max(0, part / all));
  return { done: share(days), from: share(days_from(since, from)) };
}

export interface Curing<L> {
  readonly lot: L;
  /** Undefined where no day was set. */
  readonly ready: Ready | undefined;
}

/** What cures, by the day it may be ready first; what has no day comes last. */
export function curing_lots<L extends Pick<LotState, 'curing' | 'cures_until' | 'put_away_day' | 'crop'>>(
  lots: readonly L[],
  cure_of: (crop: string) => CureDays | undefined,
  today: string,
): readonly Curing<L>[] {
  const first = ({ ready }: Curing<L>): string => ready?.from ?? '9999';
  return lots
    .filter((lot) => lot.curing)
    .map((lot) => ({ lot, ready: ready_of(lot, cure_of(lot.crop), today) }))
    .sort((a, b) => (first(a) < first(b) ? -1 : 1));
}
