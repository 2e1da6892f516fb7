/** What there is of each crop and what became of the rest this winter, from the lots. Pure. */
import type { Known, LotState } from '../../storekeeping/state';

export interface CropStock {
  readonly crop: string;
  readonly lots: number;
  /** What is there. Grams where every lot's are known, else null; pieces likewise. */
  readonly grams: number | null;
  readonly pieces: number | null;
  /** The least sure of its lots. */
  readonly known: Known;
  /** Grams of all lots of the winters that what is there was put away for, finished ones too. */
  readonly put_away: number;
  readonly eaten: number;
  readonly given: number;
  readonly lost: number;
  readonly put_by: number;
}

const LEAST_SURE: readonly Known[] = ['counted', 'worked_out', 'presumed'];

const total = (values: readonly (number | null)[]): number | null =>
  values.reduce((sum, value) => (sum === null || value === null ? null : sum + value), 0);

const grams_of = (lots: readonly LotState[], of: (lot: LotState) => number | null): number =>
  lots.reduce((sum, lot) => sum + (of(lot) ?? 0), 0);

function crop_stock(crop: string, lots: readonly LotState[]): CropStock {
  const here = lots.filter((lot) => !lot.finished);
  const winters = new Set(here.map((lot) => lot.winter));
  const year = lots.filter((lot) => winters.has(lot.winter));
  // A part that was moved was put away once, in the lot it came from.
  const born = year.filter((lot) => lot.born_by === 'put_away');
  return {
    crop,
    lots: here.length,
    grams: total(here.map((lot) => lot.shown.grams)),
    pieces: total(here.map((lot) => lot.shown.pieces)),
    known: LEAST_SURE[Math.max(0, ...here.map((lot) => LEAST_SURE.indexOf(lot.known)))] ?? 'counted',
    put_away: grams_of(born, (lot) => lot.tallies.put_away),
    eaten: grams_of(year, (lot) => lot.tallies.eaten),
    given: grams_of(year, (lot) => lot.tallies.given),
    lost: grams_of(year, (lot) => lot.tallies.shrink),
    put_by: grams_of(year, (lot) => lot.tallies.put_by),
  };
}

/** Crops that are there, in the order `compare` puts their names in. */
export function stock_by_crop(
  lots: readonly LotState[],
  compare: (a: string, b: string) => number,
): readonly CropStock[] {
  const crops = [...new Set(lots.filter((lot) => !lot.finished).map((lot) => lot.crop))].sort(compare);
  return crops.map((crop) =>
    crop_stock(
      crop,
      lots.filter((lot) => lot.crop === crop),
    ),
  );
}
