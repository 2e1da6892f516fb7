/** How well the household's forecasts came out: the sheet `score` (docs/sheets.md). One of another shape reads as none. Pure. */
import type { Json, Sheet } from '../../ledger';
import { fields, number_of, rows, text, type Fields } from '../shared/sheet_fields';

export type Quantity = 'sound_28' | 'sound_56' | 'run_out';

export interface BandScore {
  readonly of: Quantity;
  readonly settled: number;
  readonly within: number;
  readonly within_handbook: number;
  /** Mean interval scores, less is better. */
  readonly interval: number;
  readonly interval_handbook: number;
}
/** One fifth of the chances: how many were said, and how many of them came true. */
export interface Fifth {
  readonly said: number;
  readonly came: number;
}
export interface ChanceScore {
  readonly settled: number;
  readonly brier: number;
  readonly brier_handbook: number;
  readonly by_fifths: readonly Fifth[];
}
export interface Score {
  readonly made_at: string;
  readonly made: number;
  readonly settled: number;
  readonly bands: readonly BandScore[];
  readonly chances: ChanceScore | undefined;
  /** By how much bands are widened by own forecasts; 1: not. */
  readonly stretch: number;
}

const QUANTITIES: readonly string[] = ['sound_28', 'sound_56', 'run_out'];

export function score_of(sheets: readonly Sheet[]): Score | undefined {
  const sheet = sheets.find((one) => one.key === 'score');
  const told = fields(sheet?.content);
  const made = number_of(told?.['made']);
  if (!sheet || !told || made === undefined) return undefined;
  return {
    made_at: sheet.made_at,
    made,
    settled: number_of(told['settled']) ?? 0,
    bands: rows(told['bands']).flatMap((row) => band_score(row) ?? []),
    chances: chance_score(fields(told['chances'])),
    stretch: number_of(told['stretch']) ?? 1,
  };
}

function band_score(row: Fields): BandScore | undefined {
  const [of, settled, within] = [text(row['of']), number_of(row['settled']), number_of(row['within'])];
  if (!QUANTITIES.includes(of) || !settled || within === undefined) return undefined;
  return {
    of: of as Quantity,
    settled,
    within,
    within_handbook: number_of(row['within_handbook']) ?? 0,
    interval: number_of(row['interval']) ?? 0,
    interval_handbook: number_of(row['interval_handbook']) ?? 0,
  };
}

function chance_score(told: Fields | undefined): ChanceScore | undefined {
  const settled = number_of(told?.['settled']);
  if (!told || !settled) return undefined;
  return {
    settled,
    brier: number_of(told['brier']) ?? 0,
    brier_handbook: number_of(told['brier_handbook']) ?? 0,
    by_fifths: Array.isArray(told['by_fifths']) ? told['by_fifths'].flatMap((one) => fifth(one) ?? []) : [],
  };
}

function fifth(value: Json): Fifth | undefined {
  const [said, share] = Array.isArray(value) ? value : [];
  return typeof said === 'number' && typeof share === 'number'
    ? { said, came: Math.round(said * share) }
    : undefined;
}

/** All bands together. */
export const total = ({ bands }: Score) =>
  bands.reduce(
    (sum, one) => ({
      settled: sum.settled + one.settled,
      within: sum.within + one.within,
      within_handbook: sum.within_handbook + one.within_handbook,
    }),
    { settled: 0, within: 0, within_handbook: 0 },
  );
