/** What scraps are to one group of animals over some days, and the limits that the tables have for it. Pure. */
import type { KitchenReference } from '../../reference';
import { diet_of, value_of, type Diet, type Fed, type Measured } from '../../storekeeping/diet';
import type { Row } from '../../storekeeping/rules';
import type { Went } from '../../storekeeping/state';

/** Feed as sold that all of them have in a day, least and most [g]; `own` the household's figure. */
export interface Feed {
  readonly grams: readonly [number, number];
  readonly own: boolean;
  /** Rows of the tables it is from; none for the household's own. */
  readonly rows: readonly Row[];
}

export interface Limit {
  /** Share of the diet, 0 to 1. */
  readonly share: number;
  readonly row: Row;
}

type Animals = Pick<KitchenReference, 'animal'>;

/** Dry feed as fed, where the tables only tell dry matter: complete feed is 88 to 90 % dry. */
const DRY = 0.89;

/** The household's figure first, else the tables' for a beast of medium or any sort, times their number. */
export function feed_of(
  kind: string,
  number: number | undefined,
  own_g_a_day: number | undefined,
  tables: Animals,
): Feed | null {
  if (own_g_a_day) return { grams: [own_g_a_day, own_g_a_day], own: true, rows: [] };
  if (!number) return null;
  const told = [
    ...tables.animal(kind, 'feed_as_fed').map((row) => ({ ...row, times: 1 })),
    ...tables.animal(kind, 'dry_matter').map((row) => ({ ...row, times: 1 / DRY })),
  ].filter(({ low, high }) => low !== null && high !== null);
  const first = told.filter(({ sort }) => sort === 'medium');
  const rows = first.length ? first : told;
  if (rows.length === 0) return null;
  const grams = ({ unit, times }: (typeof rows)[number], n: number | null) =>
    (n ?? 0) * times * (unit.startsWith('kg') ? 1000 : 1);
  const low = Math.min(...rows.map((row) => grams(row, row.low)));
  const high = Math.max(...rows.map((row) => grams(row, row.high)));
  return { grams: [low * number, high * number], own: false, rows: rows.map(({ row }) => row) };
}

/** Limits on scraps in the diet, the lowest first: where sources differ, the lower one warns. */
export function limits_of(kind: string, tables: Animals): readonly Limit[] {
  const rows = tables.animal(kind, 'treats_share').filter(({ high }) => high !== null);
  const any = rows.filter(({ sort }) => sort === 'any');
  return (any.length ? any : rows)
    .map(({ high, row }) => ({ share: (high ?? 0) / 100, row }))
    .sort((a, b) => a.share - b.share);
}

/** Rows of the tables whose figures speak of what went to a group, or to any, and how weights are known. */
export const figured_rows = (
  rows: readonly Pick<Went, 'crop' | 'part' | 'animals' | 'way'>[],
  values: KitchenReference['scrap_values'],
  crop: (crop: string) => string,
  group?: string,
): readonly Row[] => [
  ...new Set([
    ...rows
      .filter((row) => row.way === 'animals' && (group === undefined || row.animals === group))
      .flatMap((row) => value_of(values, row.crop && crop(row.crop), row.part)?.row ?? []),
    'kitchen_safety:measured_off',
  ]),
];

/** Of the rows that went to this group. `measured` tells how an entry's weights are known. */
export function group_diet(
  rows: readonly Pick<Went, 'crop' | 'part' | 'grams' | 'animals' | 'way' | 'entry'>[],
  group: string,
  days: number,
  feed: Feed | null,
  values: KitchenReference['scrap_values'],
  asked: {
    readonly crop: (crop: string) => string;
    readonly measured: (entry: string) => Measured | undefined;
  },
): Diet {
  const fed = rows
    .filter((row) => row.way === 'animals' && row.animals === group && row.grams !== null)
    .map((row): Fed => ({
      crop: row.crop === null ? null : asked.crop(row.crop),
      part: row.part,
      grams: row.grams ?? 0,
      measured: asked.measured(row.entry) ?? null,
    }));
  return diet_of(fed, values, feed && [feed.grams[0] * days, feed.grams[1] * days]);
}
