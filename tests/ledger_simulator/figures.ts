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

/** What is there of each lot and what became of it, without what is only told of it: flags, times, history. */
export const amounts = (lines: readonly FoldLine[]): string => {
  const { lots } = state_at(fold_all(lines, SETTING), TODAY);
  return canonical(
    Object.values(lots).map(({ id, pieces, grams, food, tallies, space }) => ({
      id,
      pieces,
      grams,
      food,
      tallies,
      space,
    })),
  );
};

/**
 * The same lines as if this phone's clock had stood `ms` ahead all along: it wrote other times, and the server
 * measured another skew. A skew under two minutes is the network's and was not corrected; a corrected one would be.
 */
export function with_clock(lines: readonly FoldLine[], device: string, ms: number): readonly FoldLine[] {
  return lines.map((line) => {
    const { written, clock_skew_ms = 0 } = line;
    if (written.device !== device || written.dated !== 'clock') return line;
    const skew = Math.abs(clock_skew_ms) > 120_000 ? clock_skew_ms : 0;
    const happened_at = new Date(Date.parse(written.happened_at) + ms).toISOString();
    return { ...line, written: { ...written, happened_at }, clock_skew_ms: skew - ms };
  });
}

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
