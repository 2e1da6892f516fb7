/** Amounts as entries carry them, and how much of a lot is left for its drawing. Of a lot in words: lot_words.ts. */
import type { LotState } from '../../storekeeping/state';
import { figures, words } from '../../words';
import { kind_words } from '../../words/kinds';

interface Written {
  readonly pieces?: number | undefined;
  readonly grams?: number | undefined;
  readonly measured?: 'weighed' | 'guessed' | 'vessel' | undefined;
}

/** "17 pieces". */
export const pieces_words = (pieces: number): string =>
  words().amounts.pieces(pieces, figures().pieces(pieces));

/** As written in an entry: "3 kg", "12 pieces, 1.4 kg", "2 kg, guessed". */
export const entry_amount = ({ pieces, grams, measured }: Written): string =>
  [
    pieces === undefined ? '' : pieces_words(pieces),
    grams === undefined ? '' : figures().weight(grams),
    measured === 'guessed' ? kind_words().guessed : '',
  ]
    .filter(Boolean)
    .join(', ');

/** What is left of what was put away, 0 to 1. */
export function share_left(lot: Pick<LotState, 'shown' | 'tallies'>): number {
  const { grams, pieces } = lot.shown;
  const { put_away } = lot.tallies;
  if (grams !== null && put_away !== null && put_away > 0) return Math.min(1, grams / put_away);
  return grams === 0 || pieces === 0 ? 0 : 1;
}
