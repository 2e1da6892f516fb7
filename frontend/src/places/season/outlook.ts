/**
 * How far a crop reaches: its sheet `outlook/<crop>` (docs/sheets.md), moved by what was written since. A sheet of another
 * shape, of a newer server, reads as none. Pure.
 *
 * What moved is taken off every week to come, or added to it, and the days it reaches move by as much at the pace the
 * likeliest line falls (ours, no source): close enough until the sheet is worked out anew. The chance to meet the new
 * harvest cannot be moved so, and stays as it was.
 */
import type { Id, Sheet } from '../../ledger';
import type { LotState } from '../../storekeeping/state';
import { band, bands, fields, number_of, rows, text, type Band } from '../shared/sheet_fields';
import { since, type Held } from '../shared/since';

/** The sheet looks no further than this. */
export const MOST_DAYS = 400;
const DAY_MS = 86_400_000;

export interface Harvest {
  readonly day: string;
  /** 0 to 1, as of the sheet. */
  readonly chance: number;
}

export interface CropOutlook {
  readonly crop: string;
  /** The day of the first week, and when it was worked out. */
  readonly day: string;
  readonly made_at: string;
  /** Grams sound on `day` and after each week. */
  readonly weeks: readonly Band[];
  /** Days from `day` until a need goes unmet; undefined where no weekly use is told. */
  readonly reach: Band | undefined;
  readonly harvest: Harvest | undefined;
  /** Lines are held that the sheet did not know, or it is of a day gone by. */
  readonly behind: boolean;
  /** Grams more than the sheet knew, mostly less. */
  readonly moved: number;
}

export const day_after = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * DAY_MS).toISOString().slice(0, 10);

/** Undefined where no sheet of the crop came yet. `lots`: all of the household's, finished ones too. */
export function outlook_of(
  crop: string,
  sheets: readonly Sheet[],
  lots: readonly LotState[],
  held: Held,
): CropOutlook | undefined {
  const sheet = sheets.find((one) => one.key === `outlook/${crop}`);
  const told = fields(sheet?.content);
  const [first, ...later] = bands(told?.['weeks']);
  const day = text(told?.['day']);
  if (!sheet || !told || !first || !later.length || !day) return undefined;
  const in_sheet = new Set(rows(told['lots']).map((row) => text(row['lot'])));
  const own = lots.filter(
    (lot) => lot.crop === crop && (in_sheet.has(lot.id) || is_new(lot, sheet.as_of, held)),
  );
  const { moved, behind } = moved_since(own, sheet.as_of, held);
  const reach = band(told['run_out_days']);
  return {
    crop,
    day,
    made_at: sheet.made_at,
    weeks: [first, ...later].map((week) => each(week, (grams) => Math.max(0, grams + moved))),
    reach: reach && moved_reach(reach, first[1], moved),
    harvest: harvest_of(told['harvest']),
    behind: behind || day < held.today,
    moved,
  };
}

const each = ([low, middle, high]: Band, of: (n: number) => number): Band => [of(low), of(middle), of(high)];

/** Nothing of it was known to the sheet. */
const is_new = (lot: LotState, as_of: number, held: Held): boolean =>
  lot.history.every(({ id }) => unknown_to(id, as_of, held));

function unknown_to(id: Id, as_of: number, held: Held): boolean {
  const seq = held.lines.get(id)?.seq;
  return seq === undefined || seq > as_of;
}

function moved_since(lots: readonly LotState[], as_of: number, held: Held) {
  const all = lots.map((lot) => ({ lot, ...since(lot, as_of, held) }));
  const grams = all.map(({ lot, grams, pieces }) => {
    const piece_g = held.setting.figures?.[lot.crop]?.piece_g;
    return grams ?? (pieces ?? 0) * (piece_g ?? 0);
  });
  return {
    behind: all.some((one) => one.behind),
    moved: Math.round(grams.reduce((sum, one) => sum + one, 0)),
  };
}

function moved_reach(reach: Band, grams: number, moved: number): Band {
  if (!moved) return reach;
  const days = grams > 0 ? Math.round((moved / grams) * reach[1]) : 0;
  return each(reach, (n) => (n >= MOST_DAYS ? n : Math.min(MOST_DAYS, Math.max(0, n + days))));
}

function harvest_of(value: Parameters<typeof fields>[0]): Harvest | undefined {
  const told = fields(value);
  const chance = number_of(told?.['chance']);
  const day = text(told?.['day']);
  return chance === undefined || !day ? undefined : { day, chance };
}
