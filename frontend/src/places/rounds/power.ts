/** A power cut: since when, how long a shut freezer holds, what stays shut, what is used first. Pure. */
import type { Json } from '../../ledger/index.ts';
import type { LotState } from '../../storekeeping/state.ts';

/**
 * So long a freezer that is kept shut holds. [h] The table's row `kitchen_safety:power_cut_freezer` (Ohio State
 * University Extension HYG-5357 for a full one; FoodSafety.gov, second-hand, for half).
 */
export const HOLDS_HOURS = { full: 48, half: 24 } as const;
export type Fill = keyof typeof HOLDS_HOURS;

const HOUR_MS = 3_600_000;

/** The draft a phone keeps of it, so that the hour stands when it is opened again. */
export const POWER_DRAFT = { id: 'power_out', kind: 'power_out' } as const;

export interface Outage {
  /** ISO moment. */
  readonly since: string;
  readonly fill: Fill;
}

/** Half full until somebody says otherwise: the lower figure warns. */
export const beginOutage = (now: Date): Outage => ({ since: now.toISOString(), fill: 'half' });

/** A draft of another shape is none. */
export function readOutage(value: Json | undefined): Outage | undefined {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return undefined;
  const { since, fill } = value as { readonly since?: Json; readonly fill?: Json };
  if (typeof since !== 'string' || Number.isNaN(Date.parse(since))) return undefined;
  return { since, fill: fill === 'full' ? 'full' : 'half' };
}

export const holdsUntil = ({ since, fill }: Outage): Date =>
  new Date(Date.parse(since) + HOLDS_HOURS[fill] * HOUR_MS);

export const hoursOut = ({ since }: Outage, now: Date): number =>
  Math.max(0, Math.round((now.getTime() - Date.parse(since)) / HOUR_MS));

/** Out for so many hours, counted back from now. */
export const outFor = (outage: Outage, hours: number, now: Date): Outage => ({
  ...outage,
  since: new Date(now.getTime() - hours * HOUR_MS).toISOString(),
});

/** Of a kind of space: what runs on power, what is warmed by the house, what needs none. */
export const needs = (kind: string): 'power' | 'warmth' | 'nothing' =>
  kind === 'freezer' ? 'power' : kind === 'spare_room' ? 'warmth' : 'nothing';

/** What lies in the freezers, oldest first. */
export const inFreezers = (
  lots: readonly LotState[],
  kind_of: (space: string) => string,
): readonly LotState[] =>
  lots
    .filter((lot) => !lot.finished && needs(kind_of(lot.space)) === 'power')
    .sort((a, b) => (a.put_away_day < b.put_away_day ? -1 : a.put_away_day > b.put_away_day ? 1 : 0));
