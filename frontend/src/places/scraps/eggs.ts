/** Eggs by day, and hen-day lay. Pure: it reads facts of kind `lay`. */
import { hen_day_lay } from '../../storekeeping/diet';
import type { LayBody } from '../../storekeeping/shapes';
import type { Fact } from '../../storekeeping/state';
import { days_from } from './tally';

export const is_lay = (fact: Fact): fact is Fact & { body: LayBody } => fact.kind === 'lay';

export interface EggDay {
  readonly day: string;
  /** Laid, broken ones too; undefined: nobody counted. */
  readonly eggs: number | undefined;
  readonly broken: number;
  /** Hens that day, where the count said so. */
  readonly hens: number | undefined;
}

export interface EggSum {
  readonly eggs: number;
  readonly broken: number;
  /** Days on which they were counted. */
  readonly days: number;
  /** Eggs per hen and day counted; null where hens or days are not known. */
  readonly lay: number | null;
}

/** A group's eggs for each day of a span, the last day included. */
export function eggs_by_day(
  facts: readonly Fact[],
  group: string,
  from: string,
  to: string,
): readonly EggDay[] {
  const laid = facts.filter(is_lay).filter(({ body }) => body.animals === group);
  return days_from(from, to).map((day) => {
    const counted = laid.filter(({ body }) => body.day === day);
    const hens = counted.map(({ body }) => body.hens).findLast((n) => n !== undefined);
    return {
      day,
      eggs: counted.length ? counted.reduce((sum, { body }) => sum + body.eggs, 0) : undefined,
      broken: counted.reduce((sum, { body }) => sum + (body.broken ?? 0), 0),
      hens,
    };
  });
}

/** Hen-day lay counts the hens of the days that were counted: a day nobody counted is no day without eggs. */
export function eggs_of(days: readonly EggDay[], hens: number | undefined): EggSum {
  const counted = days.filter((day) => day.eggs !== undefined);
  const eggs = counted.reduce((sum, day) => sum + (day.eggs ?? 0), 0);
  const hen_days = counted.reduce((sum, day) => sum + (day.hens ?? hens ?? 0), 0);
  return {
    eggs,
    broken: counted.reduce((sum, day) => sum + day.broken, 0),
    days: counted.length,
    lay: hen_day_lay(eggs, hen_days, 1),
  };
}
