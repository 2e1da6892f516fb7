/**
 * What loses most by waiting: the sheet `on_the_turn` (docs/sheets.md), moved by what was written since. A sheet of another
 * shape, of a newer server, reads as none. Pure.
 *
 *     const turning = on_the_turn(house.sheets, house.held);
 *     turning?.lots        // largest share lost first; only lots that still stand
 */
import type { Id, Json, Sheet } from '../../ledger';
import { band, fields, rows, text, number_of, type Band } from './sheet_fields';
import { since, type Held } from './since';

export interface Turning {
  readonly lot: Id;
  /** Share of the lot that a week of waiting loses, 0 to 1. */
  readonly share: number;
  /** Grams lost by a week of waiting: the mean, and P10, P50, P90. */
  readonly grams: number;
  readonly lost: Band;
  /** Of what there is, what shows signs already [g]. */
  readonly showing_grams: number;
  /** Lines of this lot are held that the sheet did not know; the weights were moved by them. */
  readonly behind: boolean;
}

export interface OnTheTurnSheet {
  /** The day it was worked out for. */
  readonly day: string;
  readonly made_at: string;
  readonly lots: readonly Turning[];
  /** Grams a week that the lots not listed lose at most, each. */
  readonly least_grams: number;
}

export const LEAST_GRAMS = 50;

/** Undefined where no sheet came yet: then the ladder and the age tell the order. */
export function on_the_turn(sheets: readonly Sheet[], held: Held): OnTheTurnSheet | undefined {
  const sheet = sheets.find((one) => one.kind === 'on_the_turn');
  const told = fields(sheet?.content);
  if (!sheet || !told) return undefined;
  const lots = rows(told['lots']).flatMap((row) => turning(row, sheet.as_of, held));
  return { day: text(told['day']), made_at: sheet.made_at, lots, least_grams: LEAST_GRAMS };
}

function turning(row: Readonly<Record<string, Json>>, as_of: number, held: Held): readonly Turning[] {
  const lot = held.lot(text(row['lot']));
  const lost = band(row['lost']);
  if (!lot || lot.finished || !lost) return [];
  const { behind, share } = since(lot, as_of, held);
  const moved = (grams: number): number => Math.round(grams * Math.max(share, 0));
  const one: Turning = {
    lot: lot.id,
    share: number_of(row['share']) ?? 0,
    grams: moved(number_of(row['grams']) ?? lost[1]),
    lost: [moved(lost[0]), moved(lost[1]), moved(lost[2])],
    showing_grams: moved(number_of(row['showing_grams']) ?? 0),
    behind,
  };
  return share > 0 ? [one] : [];
}
