/** What is left to eat after stripping and peeling (F14). Twin: `homestead/storekeeping/edible.py`. */
import type { Maybe } from './amounts.ts';
import type { CropFigures } from './state.ts';

const DAYS_A_MONTH = 30.4;
const ALL_EDIBLE: ReadonlySet<string> = new Set(['frozen', 'dried', 'jar', 'ferment']);

interface Point {
  readonly age_days: number;
  readonly pct: number;
}

/**
 * Share of a piece that is stripped or peeled off, 0 to 1; null where no figure is known.
 *
 * Straight from the fresh figure, at most the first stored one, through the stored ones, flat after it.
 */
export function refuse_share(crop: string, figures: CropFigures, age_days: number): Maybe {
  const fresh = figures.refuse_pct ?? null;
  const stored = (figures.refuse_stored ?? []).map(({ months, pct }) => ({
    age_days: months * DAYS_A_MONTH,
    pct,
  }));
  const [first] = stored;
  if (first === undefined) {
    if (fresh === null) return ALL_EDIBLE.has(crop) ? 0 : null;
    return fresh / 100;
  }
  const start = fresh === null ? first.pct : Math.min(fresh, first.pct);
  return along([{ age_days: 0, pct: start }, ...stored], Math.max(age_days, 0)) / 100;
}

function along(points: readonly Point[], age_days: number): number {
  let early: Point | undefined;
  for (const late of points) {
    if (early !== undefined && age_days < late.age_days) {
      return (
        early.pct + ((late.pct - early.pct) * (age_days - early.age_days)) / (late.age_days - early.age_days)
      );
    }
    early = late;
  }
  return early?.pct ?? 0;
}

export function edible_grams(food_grams: Maybe, refuse: Maybe): Maybe {
  return food_grams === null || refuse === null ? null : food_grams * (1 - refuse);
}
