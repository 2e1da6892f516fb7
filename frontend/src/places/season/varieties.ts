/** Which variety of a crop kept better: the sheet `varieties` (docs/sheets.md). One of another shape reads as none. Pure. */
import type { Sheet } from '../../ledger';
import { band, fields, number_of, rows, text, type Band, type Fields } from '../shared/sheet_fields';

export type Verdict = 'not enough to tell' | 'probably' | 'clearly';

export interface Variety {
  readonly name: string;
  readonly lots: number;
  readonly grams: number;
  /** Of 100, lost after half a winter in a good room. */
  readonly shrink: Band;
  /** How sure it is that the first one keeps better; undefined of the first. */
  readonly behind: Verdict | undefined;
}

export interface CropVarieties {
  readonly crop: string;
  readonly winters: number;
  /** The best keeper first. */
  readonly varieties: readonly Variety[];
  /** Two of them lay in one space in one winter. */
  readonly side_by_side: boolean;
}

export interface Varieties {
  readonly made_at: string;
  readonly after_days: number;
  readonly crops: readonly CropVarieties[];
}

const VERDICTS: readonly string[] = ['not enough to tell', 'probably', 'clearly'];

/** Crops that something can be said of go first. */
export const how_sure = ({ varieties }: CropVarieties): number =>
  VERDICTS.indexOf(varieties[1]?.behind ?? 'not enough to tell');

export function varieties_of(sheets: readonly Sheet[]): Varieties | undefined {
  const sheet = sheets.find((one) => one.key === 'varieties');
  const told = fields(sheet?.content);
  const after_days = number_of(told?.['after_days']);
  if (!sheet || !told || after_days === undefined || !Array.isArray(told['crops'])) return undefined;
  return {
    made_at: sheet.made_at,
    after_days,
    crops: rows(told['crops'])
      .map(crop_of)
      .filter(({ varieties }) => varieties.length > 1),
  };
}

function crop_of(row: Fields): CropVarieties {
  const told = rows(row['varieties']);
  const best = text(told[0]?.['name']);
  const pairs = rows(row['pairs']);
  const behind = (name: string): Verdict | undefined => {
    const pair = pairs.find((one) => text(one['better']) === best && text(one['than']) === name);
    const verdict = text(pair?.['verdict']);
    return VERDICTS.includes(verdict) ? (verdict as Verdict) : undefined;
  };
  return {
    crop: text(row['crop']),
    winters: number_of(row['winters']) ?? 0,
    varieties: told.flatMap((one) => variety_of(one, behind) ?? []),
    side_by_side: row['side_by_side'] === true,
  };
}

function variety_of(row: Fields, behind: (name: string) => Verdict | undefined): Variety | undefined {
  const name = text(row['name']);
  const shrink = band(row['shrink']);
  if (!name || !shrink) return undefined;
  return {
    name,
    lots: number_of(row['lots']) ?? 0,
    grams: number_of(row['put_away_grams']) ?? 0,
    shrink,
    behind: behind(name),
  };
}
