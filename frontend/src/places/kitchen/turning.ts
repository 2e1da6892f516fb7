/** What is on the turn in this household now: the ladder, and the sheet of what waiting loses. Reactive: it reads `house`. */
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { on_the_turn } from '../shared/on_the_turn';
import { to_use, type OnTheTurn } from './turn';

export interface TurningHere extends OnTheTurn {
  /** The crop of the tables it is judged as. */
  readonly crop: string;
}

export function turning_now(): readonly TurningHere[] {
  const sheet = on_the_turn(house.sheets, house.held);
  return to_use(house.reference.rules, house.lots, table_crop, sheet?.lots ?? []).map((row) => ({
    ...row,
    crop: table_crop(row.lot.crop),
  }));
}
