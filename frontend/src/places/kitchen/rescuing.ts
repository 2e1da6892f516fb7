/** Dishes that rescue most in this household now. Reactive: it reads `house` and what is on the turn. */
import type { KitchenReference } from '../../reference';
import { figures } from '../../words';
import { kitchen_words } from '../../words/kitchen';
import { asked_here, finding_words, offer_here, offer_of_lot, question_of_lot } from '../shared/asking';
import { at_table_on } from '../shared/at_table';
import { house } from '../shared/house.svelte';
import { crop_name } from '../shared/lot_words';
import { table_crop } from '../shared/names';
import { values_of } from '../shared/keeping';
import type { Offer } from '../shared/offer';
import { text } from '../shared/records';
import { is_dish, OWN_DISH, of_table, own_dishes } from './dish_kinds';
import {
  dishes_that_rescue,
  type Ask,
  type DishKind,
  type InStore,
  type Rescues,
  type Taken,
} from './dishes';
import { turning_now } from './turning';

const ask: Ask = (crop, told, lot) => {
  const known = lot === undefined ? undefined : house.lot(lot);
  return asked_here(known ? question_of_lot(known, told) : { ...told, crop: table_crop(crop) });
};

export const dish_kinds = (kitchen: KitchenReference): readonly DishKind[] => {
  const people = at_table_on(house.today);
  return [
    ...kitchen.dishes.filter(is_dish).map((dish) => of_table(dish, people)),
    ...own_dishes(house.records, people),
  ];
};

export function rescues_now(kitchen: KitchenReference): Rescues {
  const store = turning_now().map(({ lot, crop, loses }): InStore => ({ lot, crop, loses: loses?.grams }));
  return dishes_that_rescue(house.reference.rules, dish_kinds(kitchen), store, ask);
}

export const dish_name = (kitchen: KitchenReference, { id, own }: DishKind): string =>
  own ? text(values_of(OWN_DISH, id)['name']) : kitchen.dish_name(id);

/** "carrot, shrivelled"; a sound one needs no second word. */
export function taken_words({ crop, part, findings }: Pick<Taken, 'crop' | 'part' | 'findings'>): string {
  const w = kitchen_words().dishes;
  const what = part === null ? crop_name(crop) : w.part_of(crop_name(crop), house.reference.part_name(part));
  const seen = findings.filter((finding) => finding !== 'sound');
  return seen.length === 0 ? what : w.seen(what, figures().list(seen.map(finding_words)));
}

/** The ladder's own words for what a dish takes: the same sentence as on every other page. */
export function offered_of({ lot, crop, part, findings }: Taken): Offer {
  const known = house.lot(lot);
  const question = { findings, ...(part === null ? {} : { part }) };
  return known ? offer_of_lot(known, question) : offer_here({ ...question, crop: table_crop(crop) });
}
