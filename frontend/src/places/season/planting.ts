/**
 * What to plant for next winter: the sheet `planting` (docs/sheets.md), and the household's own yields laid beside it. A sheet
 * of another shape, of a newer server, reads as none. Pure.
 */
import type { Json, Sheet } from '../../ledger';
import { band, fields, number_of, rows, text, texts, type Band, type Fields } from '../shared/sheet_fields';

export type Unit = 'plant' | 'metre';

export interface PastWinter {
  readonly winter: number;
  /** The day the last of it was gone; '' while there is some. */
  readonly ended: string;
  /** Grams. */
  readonly put_away: number;
  readonly eaten: number;
  readonly given: number;
  readonly put_by: number;
  readonly lost: number;
  readonly left: number;
}

export interface Plants {
  readonly unit: Unit;
  /** What one of it brings, and what the table says it does. */
  readonly grams: number;
  readonly published_grams: number | undefined;
  /** The table's row, '' where it has none. */
  readonly row: string;
  readonly own: boolean;
  /** Enough in 5, 8 and 9 winters of 10. */
  readonly numbers: Band;
}

/** First and last month to sow or plant out, 1 to 12, and the table's row that tells them. */
export interface Sowing {
  readonly from: number;
  readonly until: number;
  readonly row: string;
}

export interface CropPlan {
  readonly crop: string;
  readonly sow: Sowing | undefined;
  readonly weeks: number;
  /** Somebody told a weekly use. */
  readonly told: boolean;
  /** Grams to be eaten in a winter, and to be put away for it. */
  readonly need: Band;
  readonly put_away: Band;
  readonly seed_grams: number;
  /** Of 100 put away, those that come to some good; by so many finished lots beside the handbook. */
  readonly kept_pct: number;
  readonly own_lots: number;
  /** Share left after peeling, while fresh and at the end. */
  readonly edible: readonly [number, number] | undefined;
  readonly plant: Plants | undefined;
  readonly winters: readonly PastWinter[];
}

export interface Planting {
  readonly made_at: string;
  readonly crops: readonly CropPlan[];
  /** Crops of which too little is known. */
  readonly unknown: readonly string[];
}

/** Own yields in kg, by crop and unit. */
export type OwnYields = (crop: string, unit: Unit) => number | undefined;

export function planting_of(sheets: readonly Sheet[], own: OwnYields): Planting | undefined {
  const sheet = sheets.find((one) => one.key === 'planting');
  const told = fields(sheet?.content);
  if (!sheet || !told || !Array.isArray(told['crops'])) return undefined;
  return {
    made_at: sheet.made_at,
    crops: rows(told['crops']).flatMap((row) => plan_of(row, own) ?? []),
    unknown: texts(told['unknown']),
  };
}

function plan_of(row: Fields, own: OwnYields): CropPlan | undefined {
  const crop = text(row['crop']);
  const need = band(row['need']);
  const put_away = band(row['put_away']);
  const weeks = number_of(row['weeks']);
  if (!crop || !need || !put_away || weeks === undefined) return undefined;
  return {
    crop,
    weeks,
    need,
    put_away,
    sow: sowing(row['sow']),
    told: row['told'] === true,
    seed_grams: number_of(row['seed_grams']) ?? 0,
    kept_pct: number_of(row['kept_pct']) ?? 0,
    own_lots: number_of(row['own_lots']) ?? 0,
    edible: pair(row['edible']),
    plant: plants_of(row['plant'], (unit) => own(crop, unit)),
    winters: rows(row['winters']).flatMap((one) => winter_of(one) ?? []),
  };
}

function sowing(value: Json | undefined): Sowing | undefined {
  const told = fields(value);
  const months = pair(told?.['months']);
  return months && { from: months[0], until: months[1], row: text(told?.['row']) };
}

function pair(value: Json | undefined): readonly [number, number] | undefined {
  const [fresh, late] = Array.isArray(value) ? value : [];
  return typeof fresh === 'number' && typeof late === 'number' ? [fresh, late] : undefined;
}

/** A yield entered since is reckoned with at once: so many times more it brings, so many times fewer are planted. */
function plants_of(value: Json | undefined, own: (unit: Unit) => number | undefined): Plants | undefined {
  const told = fields(value);
  const numbers = band(told?.['numbers']);
  const grams = number_of(told?.['grams']);
  const unit = text(told?.['unit']);
  if (!told || !numbers || !grams || (unit !== 'plant' && unit !== 'metre')) return undefined;
  const published_grams = number_of(told['published_grams']);
  const kg = own(unit);
  const now = kg ? 1000 * kg : (published_grams ?? grams);
  const [half, most, nearly_all] = numbers;
  const anew = (number: number): number => Math.max(1, Math.round((number * grams) / now));
  return {
    unit,
    grams: now,
    published_grams,
    row: text(told['row']),
    own: kg !== undefined,
    numbers: [anew(half), anew(most), anew(nearly_all)],
  };
}

function winter_of(row: Fields): PastWinter | undefined {
  const winter = number_of(row['winter']);
  if (winter === undefined) return undefined;
  const grams = (name: string): number => number_of(row[name]) ?? 0;
  return {
    winter,
    ended: text(row['ended']),
    put_away: grams('put_away'),
    eaten: grams('eaten'),
    given: grams('given'),
    put_by: grams('put_by'),
    lost: grams('lost'),
    left: grams('left'),
  };
}

/** Crops that are sown, the next to be sown first; one whose months are running stands at the top. `month`: 1 to 12. */
export function to_sow(crops: readonly CropPlan[], month: number): readonly CropPlan[] {
  const wait = ({ sow }: CropPlan): number => {
    if (!sow) return 12;
    const length = (sow.until - sow.from + 12) % 12;
    return (month - sow.from + 12) % 12 <= length ? 0 : (sow.from - month + 12) % 12;
  };
  return crops.filter(({ sow, plant }) => sow && plant).sort((a, b) => wait(a) - wait(b));
}

/** Grams put away in the newest winter. */
export const had = ({ winters }: CropPlan): number | undefined => winters.at(-1)?.put_away;

/** A change by less than this is no change to speak of. Ours. */
const WORTH_SAYING = 0.15;
const AT_MOST = 2;

/** The crops of which most more, and of which most less, is wanted than was put away last; two of each at most. */
export function changes(crops: readonly CropPlan[]): {
  readonly more: readonly CropPlan[];
  readonly less: readonly CropPlan[];
} {
  const by_ratio = crops
    .flatMap((plan) => {
      const last = plan.plant && had(plan);
      return last ? [{ plan, off: Math.log(plan.put_away[1] / last) }] : [];
    })
    .filter(({ off }) => Math.abs(off) >= Math.log(1 + WORTH_SAYING))
    .sort((a, b) => b.off - a.off);
  const plans = (some: typeof by_ratio) => some.map(({ plan }) => plan).slice(0, AT_MOST);
  return {
    more: plans(by_ratio.filter(({ off }) => off > 0)),
    less: plans(by_ratio.filter(({ off }) => off < 0).reverse()),
  };
}
