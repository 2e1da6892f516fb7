/** What there is of a crop and what became of the rest, in words. Reactive through `words`. */
import { figures, words } from '../../words';
import { season_words } from '../../words/season';
import { amount_words } from '../shared/lot_words';
import type { CropStock } from './by_crop';

export function crop_amount(one: CropStock): string {
  const shown = amount_words(one.crop, { grams: one.grams, pieces: one.pieces && Math.round(one.pieces) });
  return shown === undefined ? words().known.count_it : words().known[one.known](shown);
}

/** Shares under a tenth of a kilogram are not worth a word. */
const told = (grams: number, say: (amount: string) => string): string =>
  grams < 100 ? '' : say(figures().weight(grams));

export function rest_words(one: CropStock): string {
  const w = season_words();
  return [
    told(one.eaten, w.eaten),
    told(one.given, w.given),
    told(one.put_by, w.put_by),
    told(one.lost, w.lost),
    told(one.put_away, w.of),
  ]
    .filter(Boolean)
    .join(', ');
}
