/** Scraps of a span of days, added up by where they went and by crop. Plain: it reads rows of what went where. */
import type { Went } from '../../storekeeping/state';

export type Scrapped = Pick<Went, 'way' | 'animals' | 'crop' | 'day' | 'grams' | 'pieces' | 'accident'>;

/** Where scraps go; what people ate is none. */
export const SCRAP_WAYS = ['pot', 'animals', 'compost', 'bin'] as const;
export type ScrapWay = (typeof SCRAP_WAYS)[number];

export interface Sum {
  readonly way: ScrapWay;
  /** The group, for animals, if one was named. */
  readonly animals: string | null;
  readonly grams: number;
  /** Pieces whose weight nobody knows. */
  readonly unweighed: number;
}

export interface CropSum {
  readonly crop: string | null;
  readonly grams: Readonly<Record<ScrapWay, number>>;
  readonly all: number;
}

const is_scrap = (row: Scrapped): row is Scrapped & { way: ScrapWay } =>
  (SCRAP_WAYS as readonly string[]).includes(row.way);

export const scraps_between = (rows: readonly Scrapped[], from: string, to: string) =>
  rows.filter(is_scrap).filter((row) => row.day >= from && row.day <= to);

/** By step and group, in the order of the ladder. */
export function by_way(rows: readonly (Scrapped & { way: ScrapWay })[]): readonly Sum[] {
  const sums = new Map<string, Sum>();
  for (const { way, animals, grams, pieces } of rows) {
    const key = `${SCRAP_WAYS.indexOf(way)} ${animals ?? ''}`;
    const sum = sums.get(key) ?? { way, animals, grams: 0, unweighed: 0 };
    sums.set(key, {
      ...sum,
      grams: sum.grams + (grams ?? 0),
      unweighed: sum.unweighed + (grams === null ? (pieces ?? 0) : 0),
    });
  }
  return [...sums].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, sum]) => sum);
}

/** By crop, the most first; mixed scraps have no crop. */
export function by_crop(rows: readonly (Scrapped & { way: ScrapWay })[]): readonly CropSum[] {
  const sums = new Map<string | null, CropSum>();
  for (const { crop, way, grams } of rows) {
    const sum = sums.get(crop) ?? { crop, grams: { pot: 0, animals: 0, compost: 0, bin: 0 }, all: 0 };
    const more = grams ?? 0;
    sums.set(crop, { crop, grams: { ...sum.grams, [way]: sum.grams[way] + more }, all: sum.all + more });
  }
  return [...sums.values()].sort((a, b) => b.all - a.all);
}

/** The household's first day of the week, 0 Sunday to 6; Monday where none is set. */
export const first_day = (week_start: string): number => ({ sunday: 0, saturday: 6 })[week_start] ?? 1;

const DAY_MS = 86_400_000;

/** First and last day of the week that `day` lies in; `first` 0 is Sunday. */
export function week_of(day: string, first: number, back = 0): { from: string; to: string } {
  const at = Date.parse(day);
  const into = (new Date(at).getUTCDay() - first + 7) % 7;
  const begin = at - (into + 7 * back) * DAY_MS;
  const text = (ms: number) => new Date(ms).toISOString().slice(0, 10);
  return { from: text(begin), to: text(begin + 6 * DAY_MS) };
}
