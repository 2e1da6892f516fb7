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

/** More than the book has, by half a piece or gram at least. Of what it does not know there is no more. */
export function beyond_book({ shown }: Pick<LotState, 'shown'>, { pieces, grams }: Written): boolean {
  const more = (told: number | undefined, there: number | null): boolean =>
    told !== undefined && there !== null && told > there + 0.5;
  return more(pieces, shown.pieces) || more(grams, shown.grams);
}
