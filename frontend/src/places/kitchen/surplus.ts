/**
 * What will not be eaten in time and is better put by or given away: the sheets `plan/<crop>` (docs/sheets.md), less what went
 * since. A sheet of another shape, of a newer server, reads as none. Pure.
 */
import type { Id, Sheet } from '../../ledger/index.ts';
import { fields, number_of, rows, text } from '../shared/sheet_fields.ts';

export interface Surplus {
  readonly lot: Id;
  readonly grams: number;
  /** From this day on it is better put by than left. */
  readonly day: string;
}

/** Less than this is eaten by the way; the project's own figure. */
const LEAST_GRAMS = 250;

/** `share`: what is there now of what the sheet knew, 0 where the lot is gone. The most first. */
export const surplus_of = (
  sheets: readonly Sheet[],
  share: (lot: Id, as_of: number) => number,
): readonly Surplus[] =>
  sheets
    .filter(({ kind }) => kind === 'plan')
    .flatMap(({ content, as_of }) =>
      rows(fields(content)?.['surplus']).map((row) => {
        const [lot, day] = [text(row['lot']), text(row['day'])];
        const grams = Math.round((number_of(row['grams']) ?? 0) * Math.min(1, share(lot, as_of)));
        return { lot, day, grams };
      }),
    )
    .filter(({ grams }) => grams >= LEAST_GRAMS)
    .sort((a, b) => b.grams - a.grams || a.lot.localeCompare(b.lot));
