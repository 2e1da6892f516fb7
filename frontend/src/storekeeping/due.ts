/**
 * When a lot is to be looked over again (fold F17). Days are ISO dates as text, as in entries.
 * Twin: `homestead/storekeeping/due.py`; both run `fixtures/vectors/due*.json`.
 */

import type { LookingOver, Rules } from './rules.ts';

/** What due asks of a lot. `last_look`: last look, count or birth; `roster_days`: what the roster sheet gives it. */
export interface Watched {
  readonly put_away_on: string;
  readonly last_look: string;
  readonly look_on?: string | null;
  readonly roster_days?: number | null;
  readonly finished?: boolean;
}

export type Hemisphere = 'north' | 'south';

/** The day the lot is due, null if finished. Without an interval (own crop) 7 days are taken. */
export declare function due_of_lot(interval: LookingOver | null, lot: Watched, hemisphere?: Hemisphere): string | null;

/** A space is due with its first lot; null when nothing in it is. */
export declare function due_of_space(due_days: Iterable<string | null>): string | null;

/** 0 on the day and before; 2 two days after. */
export declare function days_late(due: string | null, today: string): number;

/** The crop's row of looking_over. */
export declare function interval_of(rules: Rules, crop: string): LookingOver | null;
