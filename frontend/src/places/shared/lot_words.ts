/** How a lot is named and how much of it there is, in words: the same on every page. Reactive through `house` and `words`. */
import type { LotState } from '../../storekeeping/state';
import { figures, words } from '../../words';
import { house } from './house.svelte';
import { text } from './records';

const UUID = /^[0-9a-f]{8}-/;

/** The first letter large, as at the beginning of a line. */
export const capital = (name: string): string => name.charAt(0).toLocaleUpperCase() + name.slice(1);

/** An own crop has the name of its record. */
export function crop_name(crop: string): string {
  if (!UUID.test(crop)) return house.reference.crop_name(crop);
  const own = house.records.find((record) => record.type === 'crop' && record.id === crop);
  return text(own?.values['name']) || words().known.unknown;
}

/** "Carrot, Long Ember", or what its label says. */
export function lot_name(lot: Pick<LotState, 'crop' | 'variety' | 'label'>): string {
  if (lot.label) return lot.label;
  const crop = capital(crop_name(lot.crop));
  return lot.variety ? `${crop}, ${lot.variety}` : crop;
}

/** What its label says, else "Carrot, box 2": where there are several of a crop, the spot or the code tells them apart. */
export function short_lot_name(lot: Pick<LotState, 'crop' | 'variety' | 'label' | 'spot' | 'code'>): string {
  if (lot.label) return lot.label;
  const crop = capital(crop_name(lot.crop));
  const which = lot.spot ?? lot.code ?? lot.variety;
  return which ? `${crop}, ${which}` : crop;
}

/** Pieces a hand can have written come in quarters; any other number was worked out, and is told whole. */
const told_pieces = (pieces: number): number => (Number.isInteger(pieces * 4) ? pieces : Math.round(pieces));

/** What was only worked out is not cut into quarters in words: two thirds of a cabbage stand on no shelf. */
export function pieces_there({
  shown: { pieces },
  known,
  own_measure,
}: Pick<LotState, 'shown' | 'known' | 'own_measure'>): number | null {
  if (pieces === null) return null;
  return known === 'counted' && own_measure === 'pieces' ? told_pieces(pieces) : Math.round(pieces);
}

/** Pieces or a weight, whichever the crop is counted in; the other where that one is not known; undefined where neither is. */
export function amount_words(
  crop: string,
  amount: { readonly pieces?: number | null; readonly grams?: number | null },
): string | undefined {
  const pieces = amount.pieces == null ? undefined : told_pieces(amount.pieces);
  const grams = amount.grams ?? undefined;
  const by_weight = house.own.figures[crop]?.count_unit === 'kg';
  if (grams !== undefined && (by_weight || pieces === undefined)) return figures().weight(grams);
  return pieces === undefined ? undefined : words().amounts.pieces(pieces, figures().pieces(pieces));
}

/** "17 pieces counted", "about 41 kg", "perhaps 9 kg": how a number is known is a word. */
export function stock_words(lot: Pick<LotState, 'crop' | 'shown' | 'known' | 'own_measure'>): string {
  const amount = amount_words(lot.crop, { pieces: pieces_there(lot), grams: lot.shown.grams });
  return amount === undefined ? words().known.unknown : words().known[lot.known](amount);
}
