/** Stock as each side works it out, by the phone's own fold, from the lines it holds. */
import { fold_all, state_at } from '../../frontend/src/storekeeping/fold.ts';
import type { Line as FoldLine } from '../../frontend/src/storekeeping/state.ts';
import type { EntryRow } from '../../frontend/src/ledger/store.ts';
import { canonical } from './model/canonical.ts';
import type { State } from './model/state.ts';

const SETTING = {
  zone: 'Europe/Vienna',
  hemisphere: 'north',
  figures: {
    carrot: { piece_g: 100 },
    onion: { piece_g: 90 },
    cabbage: { piece_g: 2000, count_unit: 'piece' },
  },
} as const;
const TODAY = '2027-02-01';

/** As one text, so that two sides are equal or not. */
export const stock = (lines: readonly FoldLine[]): string =>
  canonical(state_at(fold_all(lines, SETTING), TODAY));

export const phone_lines = (rows: readonly EntryRow[]): readonly FoldLine[] =>
  rows.map(({ written, seq, clock_skew_ms, standing }) => ({
    written,
    standing,
    ...(seq !== undefined && { seq }),
    ...(clock_skew_ms !== undefined && { clock_skew_ms }),
  }));

export const server_lines = (state: State): readonly FoldLine[] =>
  [...state.lines.values()].map(({ written, seq, clock_skew_ms }) => ({ written, seq, clock_skew_ms }));
