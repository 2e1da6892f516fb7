/** A heap in words: when it is to be turned, what it took in. Reactive: reads `house` and the words. */
import { figures } from '../../words';
import { scraps_words } from '../../words/scraps';
import { house } from '../shared/house.svelte';
import type { Taken } from '../../storekeeping/soil';
import { crop_name } from '../shared/lot_words';
import type { HeapNow } from './heaps';

export function turning({ turn_on }: HeapNow): string {
  const w = scraps_words().heap;
  if (turn_on === undefined) return w.ripe;
  return (turn_on <= house.today ? w.turn_due : w.turn_on)(figures().day(turn_on));
}

export const disease_name = ({ disease }: Pick<Taken, 'disease'>): string =>
  house.reference.sentence(`soil_diseases:${disease}`);

/** What brought it, when, and the crops whose beds get none of it. */
export function taken_words(taken: Taken): string {
  const w = scraps_words().heap;
  const of = taken.crop === null ? scraps_words().form.kinds.mixed : crop_name(taken.crop);
  const kin = house.reference.caution(`soil_diseases:${taken.disease}`);
  return w.took_in(disease_name(taken), of, figures().day(taken.day), taken.sure, kin);
}
