/**
 * What scraps are to the animals that ate them: dry matter, protein, their share of the diet. And hen-day lay.
 * Twin: `homestead/storekeeping/diet.py`. Pure; figures come from the tables.
 */

/** Crop of mixed scraps in the tables. */
export const MIXED = 'any_produce';
/** Dry share of bought feed, least and most: `animals.csv`, complete layer feed 88 to 90 %, from memory. */
export const FEED_DRY = [0.88, 0.9] as const;
/** How far a weight may be off, by how it is known. Common practice, no source. */
export const OFF = { weighed: 0, vessel: 0.1, guessed: 0.25 } as const;

export type Measured = keyof typeof OFF;

/** `dry` [%]: least, middle, most; `protein` [% of dry], null where the tables have none. */
export interface ScrapValue {
  readonly dry: readonly [number, number, number];
  readonly protein: number | null;
  readonly row: string;
}
/** By crop and part, '' any part. */
export type ScrapValues = Readonly<Record<string, Readonly<Record<string, ScrapValue>>>>;

/** Scraps that went to a group [g]. `crop` null: mixed. */
export interface Fed {
  readonly crop: string | null;
  readonly grams: number;
  readonly part?: string | null;
  readonly measured?: Measured | null;
}

/** Likeliest, and the least and most it may be. */
export interface Band {
  readonly mid: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Of a span of days. fresh_g: all as given. dry_g, protein_g: of what the tables know. unknown_g: of the rest, as given
 * [g]. share: scraps in all dry matter eaten, 0 to 1; null without feed or figures.
 */
export interface Diet {
  readonly fresh_g: number;
  readonly unknown_g: number;
  readonly dry_g: Band;
  readonly protein_g: number;
  readonly share: Band | null;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);

/** The row for a part, else for the crop, undefined where the tables have none. */
export function value_of(
  values: ScrapValues,
  crop: string | null,
  part?: string | null,
): ScrapValue | undefined {
  const rows = values[crop ?? MIXED] ?? {};
  return rows[part ?? ''] ?? rows[''];
}

const off = (one: Fed): number => OFF[one.measured ?? 'weighed'];

/**
 * feed_g: feed as sold that they had in those days, least and most [g].
 *
 * share = dry scraps / (dry scraps + dry feed). Source: definition; the table's worked example (six hens, 1 kg of
 * cabbage trimmings: 11.6 %).
 */
export function diet_of(
  fed: readonly Fed[],
  values: ScrapValues,
  feed_g: readonly [number, number] | null,
): Diet {
  const known = fed.flatMap((one) => {
    const value = value_of(values, one.crop, one.part);
    return value ? [{ one, value }] : [];
  });
  const dry = (which: 0 | 1 | 2, sign: number) =>
    sum(known.map(({ one, value }) => (one.grams * (1 + sign * off(one)) * value.dry[which]) / 100));
  const dry_g = { mid: dry(1, 0), low: dry(0, -1), high: dry(2, 1) };
  const fresh_g = sum(fed.map((one) => one.grams));
  return {
    fresh_g,
    unknown_g: fresh_g - sum(known.map(({ one }) => one.grams)),
    dry_g,
    protein_g: sum(
      known.map(({ one, value }) => (((one.grams * value.dry[1]) / 100) * (value.protein ?? 0)) / 100),
    ),
    share: feed_g && feed_g[0] > 0 && (known.length > 0 || fed.length === 0) ? share_of(dry_g, feed_g) : null,
  };
}

function share_of(dry: Band, [least, most]: readonly [number, number]): Band {
  const middle = ((least + most) * (FEED_DRY[0] + FEED_DRY[1])) / 4;
  return {
    mid: dry.mid / (dry.mid + middle),
    low: dry.low / (dry.low + most * FEED_DRY[1]),
    high: dry.high / (dry.high + least * FEED_DRY[0]),
  };
}

/**
 * Crude protein of all dry matter eaten. [%]  feed_g: as sold; feed_protein_pct: of its dry matter. Source: mass balance.
 */
export function protein_pct(diet: Diet, feed_g: number, feed_protein_pct: number): number {
  const feed = (feed_g * (FEED_DRY[0] + FEED_DRY[1])) / 2;
  return (feed * feed_protein_pct + diet.protein_g * 100) / (feed + diet.dry_g.mid);
}

/** Eggs per hen and day, null without hens or days. [-]  Source: definition of hen-day production. */
export const hen_day_lay = (eggs: number, hens: number, days: number): number | null =>
  hens > 0 && days > 0 ? eggs / (hens * days) : null;
