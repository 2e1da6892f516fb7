/** The lots of a pencil sheet: all of a space, as they stand along it, so that paper and page agree on any day. */
import type { LotState } from '../../../storekeeping/state';
import { figures } from '../../../words';
import { house } from '../../shared/house.svelte';
import { lot_name } from '../../shared/lot_words';
import { table_crop } from '../../shared/names';
import { finding_words } from '../footing';
import { byUrgency, inSight, LOOK_FORS_SHOWN } from '../ticks';

export const lots_along = (space: string): readonly LotState[] =>
  [...house.lots_in(space)].sort(
    (a, b) =>
      figures().compare(a.spot ?? '', b.spot ?? '') ||
      figures().compare(lot_name(a), lot_name(b)) ||
      figures().compare(a.code ?? '', b.code ?? ''),
  );

/** "soft neck, sprouting": the pressing ones of this crop. */
export const look_for_words = (lot: LotState): string => {
  const crop = table_crop(lot.crop);
  return byUrgency(inSight(crop, house.reference.look_fors(crop)))
    .slice(0, LOOK_FORS_SHOWN)
    .map(({ finding }) => finding_words(finding))
    .join(', ');
};
