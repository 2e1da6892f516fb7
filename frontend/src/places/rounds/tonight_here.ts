/** What must be done before dark, from all that this phone holds. Reactive: reads `house`. */
import { house } from '../shared/house.svelte';
import type { ChoreSheet } from '../shared/chore_sheet';
import { tonight_of, type Tonight } from './tonight';

/** Frost is no news there: it is made, or what stands there bears it. */
const OUT_IN_IT: readonly string[] = ['freezer', 'bed', 'clamp'];

export function tonight_here(sheet: ChoreSheet): readonly Tonight[] {
  const { whole, records, today, lots } = house;
  if (!whole) return [];
  const spaces = lots.map(({ space }) => space);
  const holds = new Set(spaces.filter((space) => !OUT_IN_IT.includes(house.space(space)?.kind ?? '')));
  return tonight_of({ sheet, records, whole, holds, today });
}
