/** Scraps of a span of days, added up by where they went and by crop. Plain: it reads rows of what went where. */
import type { Measured } from '../../storekeeping/diet';
import type { Went } from '../../storekeeping/state';

export type Scrapped = Pick<Went, 'way' | 'animals' | 'crop' | 'day' | 'grams' | 'pieces' | 'accident'>;

/** Where scraps go; what people ate is none. */
export const SCRAP_WAYS = ['pot', 'animals', 'compost', 'bin'] as const;
export type ScrapWay = (typeof SCRAP_WAYS)[number];

export interface Sum {
  /** By this columns are told apart: the way, and for animals the group. */
  readonly key: string;
  readonly way: ScrapWay;
  /** The group, for animals, if one was named. */
  readonly animals: string | null;
  readonly grams: number;
  /** Pieces whose weight nobody knows. */
  readonly unweighed: number;
}

export interface CropSum {
  readonly crop: string | null;
  /** By the key of where it went. */
  readonly grams: Readonly<Record<string, number>>;
  readonly all: number;
}

export type Scrap<Row extends Scrapped = Scrapped> = Row & { readonly way: ScrapWay };

const is_scrap = <Row extends Scrapped>(row: Row): row is Scrap<Row> =>
  (SCRAP_WAYS as readonly string[]).includes(row.way);

export const scraps_between = <Row extends Scrapped>(
  rows: readonly Row[],
  from: string,
  to: string,
): readonly Scrap<Row>[] => rows.filter(is_scrap).filter((row) => row.day >= from && row.day <= to);

const key_of = ({ way, animals }: Pick<Sum, 'way' | 'animals'>): string =>
  `${SCRAP_WAYS.indexOf(way)} ${animals ?? ''}`;

/** By step and group, in the order of the ladder. */
export function by_way(rows: readonly Scrap[]): readonly Sum[] {
  const sums = new Map<string, Sum>();
  for (const { way, animals, grams, pieces } of rows) {
    const key = key_of({ way, animals });
    const sum = sums.get(key) ?? { key, way, animals, grams: 0, unweighed: 0 };
    sums.set(key, {
      ...sum,
      grams: sum.grams + (grams ?? 0),
      unweighed: sum.unweighed + (grams === null ? (pieces ?? 0) : 0),
    });
  }
  return [...sums].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, sum]) => sum);
}

/** By crop, the most first; mixed scraps have no crop. */
export function by_crop(rows: readonly Scrap[]): readonly CropSum[] {
  const sums = new Map<string | null, CropSum>();
  for (const row of rows) {
    const { crop } = row;
    const sum = sums.get(crop) ?? { crop, grams: {}, all: 0 };
    const more = row.grams ?? 0;
    const key = key_of(row);
    sums.set(crop, {
      crop,
      grams: { ...sum.grams, [key]: (sum.grams[key] ?? 0) + more },
      all: sum.all + more,
    });
  }
  return [...sums.values()].sort((a, b) => b.all - a.all);
}

/** The first so many, and one row for all others; undefined where there are none. */
export function with_others(
  rows: readonly CropSum[],
  most: number,
): { readonly shown: readonly CropSum[]; readonly others: Omit<CropSum, 'crop'> | undefined } {
  if (rows.length <= most + 1) return { shown: rows, others: undefined };
  const grams: Record<string, number> = {};
  for (const row of rows.slice(most))
    for (const [key, more] of Object.entries(row.grams)) grams[key] = (grams[key] ?? 0) + more;
  const all = rows.slice(most).reduce((sum, row) => sum + row.all, 0);
  return { shown: rows.slice(0, most), others: { grams, all } };
}

/** Of what has a weight, the share that was weighed, 0 to 1; undefined where nothing has one. */
export function share_weighed(
  rows: readonly (Scrap & Pick<Went, 'entry'>)[],
  measured: (entry: string) => Measured | undefined,
): number | undefined {
  const known = rows.filter((row) => row.grams !== null);
  const all = known.reduce((sum, row) => sum + (row.grams ?? 0), 0);
  const weighed = known
    .filter((row) => (measured(row.entry) ?? 'weighed') === 'weighed')
    .reduce((sum, row) => sum + (row.grams ?? 0), 0);
  return all > 0 ? weighed / all : undefined;
}

/** The household's first day of the week, 0 Sunday to 6; Monday where none is set. */
export const first_day = (week_start: string): number => ({ sunday: 0, saturday: 6 })[week_start] ?? 1;

const DAY_MS = 86_400_000;
const text = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** The day so many days on. */
export const day_after = (day: string, days: number): string => text(Date.parse(day) + days * DAY_MS);

/** Every day of a span, both ends included. */
export function days_from(from: string, to: string): readonly string[] {
  const days = (Date.parse(to) - Date.parse(from)) / DAY_MS;
  return Array.from({ length: Math.max(0, days + 1) }, (_, n) => day_after(from, n));
}

/** First and last day of the week that `day` lies in; `first` 0 is Sunday. */
export function week_of(day: string, first: number, back = 0): { from: string; to: string } {
  const at = Date.parse(day);
  const into = (new Date(at).getUTCDay() - first + 7) % 7;
  const begin = at - (into + 7 * back) * DAY_MS;
  return { from: text(begin), to: text(begin + 6 * DAY_MS) };
}

/** The first day of the winter that `day` lies in: 1 August, in the south 1 February (docs/fold.md F15). */
export function winter_from(day: string, hemisphere: 'north' | 'south'): string {
  const month = hemisphere === 'north' ? '08' : '02';
  const year = Number(day.slice(0, 4));
  return day >= `${year}-${month}-01` ? `${year}-${month}-01` : `${year - 1}-${month}-01`;
}
