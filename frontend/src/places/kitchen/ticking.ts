/** Clocks of this household now. Reactive: they read `house`. */
import type { KitchenReference } from '../../reference';
import type { LotState } from '../../storekeeping/state';
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { by_end, clock_of, how_it_lies, type Clock } from './clocks';
import { put_by_of } from './put_by_of';
import { way_told } from './yields';

/** The row of the tables that gave what was put by its own clock; where none did, the row of how such things keep. */
function row_of_own_clock(kitchen: KitchenReference, lot: LotState): string | undefined {
  const of = put_by_of(lot.id);
  const [crop] = of?.crops ?? [];
  const own =
    of?.method && crop !== undefined
      ? way_told(kitchen.preserve_yields, house.reference.rules, crop, of.method).months?.row
      : undefined;
  const lies = how_it_lies(lot.crop, lot.pack, house.space(lot.space)?.kind ?? '');
  return own ?? (lies === undefined ? undefined : kitchen.clocks[lot.crop]?.[lies]?.[1]);
}

export const clock_here = (kitchen: KitchenReference, lot: LotState): Clock | undefined =>
  clock_of(
    kitchen.clocks,
    lot,
    table_crop(lot.crop),
    house.space(lot.space)?.kind ?? '',
    lot.keeps_until === null ? undefined : row_of_own_clock(kitchen, lot),
  );

/** Nearest end first; lots that stand. */
export const clocks_now = (kitchen: KitchenReference): readonly Clock[] =>
  house.lots.flatMap((lot) => clock_here(kitchen, lot) ?? []).sort(by_end);
