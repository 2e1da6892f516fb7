/** How what is there is known, and what is shown of it (F12, F16). Twin: `homestead/storekeeping/known.py`. */
import type { Both, Maybe } from './amounts.ts';
import type { Lot } from './lot.ts';
import type { Known } from './state.ts';

export const COUNTED_DAYS = 14;
const SILENT_DAYS = 21;
const SILENT_GAPS = 3;
const GAPS_OF_TAKES = 8;
const RATE_DAYS = 56;

export function known_as(lot: Lot, today: number): Known {
  if (!lot.finished && today - lot.last_entry.day >= silence(lot)) return 'presumed';
  const counted = lot.last_count;
  if (counted !== null && lot.counted_well && today - counted.day <= COUNTED_DAYS) return 'counted';
  return 'worked_out';
}

/** Days without an entry after which takes are likely to have been forgotten. */
function silence(lot: Lot): number {
  const days = lot.takes.slice(-GAPS_OF_TAKES).map((each) => each.day);
  const gaps = days.slice(1).map((day, i) => day - (days[i] ?? day));
  return gaps.length === 0 ? SILENT_DAYS : Math.max(SILENT_DAYS, SILENT_GAPS * median(gaps));
}

function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((one, other) => one - other);
  const upper = sorted[Math.floor(sorted.length / 2)] ?? 0;
  const lower = sorted[Math.floor((sorted.length - 1) / 2)] ?? 0;
  return (lower + upper) / 2;
}

/** Pieces and grams taken a day in the 56 days up to the last entry; 0 under two takes. */
function use_rate(lot: Lot): { pieces: number; grams: number } {
  const last = lot.last_entry.day;
  const lately = lot.takes.filter(({ day }) => last - RATE_DAYS < day && day <= last);
  if (lately.length < 2) return { pieces: 0, grams: 0 };
  const pieces = lately.reduce((sum, each) => sum + (each.pieces ?? 0), 0) / RATE_DAYS;
  return { pieces, grams: lately.reduce((sum, each) => sum + (each.grams ?? 0), 0) / RATE_DAYS };
}

/** Never below nought; lessened by the expected use where it is presumed. */
export function shown_amount(lot: Lot, today: number, known: Known): Both {
  const rate = known === 'presumed' ? use_rate(lot) : { pieces: 0, grams: 0 };
  const silent_days = today - lot.last_entry.day;
  return {
    pieces: lessened(lot.pieces, rate.pieces * silent_days),
    grams: lessened(lot.grams, rate.grams * silent_days),
  };
}

function lessened(amount: Maybe, by: number): Maybe {
  return amount === null ? null : Math.max(amount - by, 0);
}
