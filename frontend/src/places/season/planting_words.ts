/** What to plant, in words. Reactive through `words` and `house`. */
import { figures } from '../../words';
import { plant_words } from '../../words/plant';
import { crop_name } from '../shared/lot_words';
import type { Band } from '../shared/sheet_fields';
import { changes, had, type CropPlan, type PastWinter, type Plants } from './planting';

const names = (plans: readonly CropPlan[]): string =>
  figures().list(plans.map(({ crop }) => crop_name(crop)));

/** "Plant more cabbage, and less beet." */
export function lead_words(crops: readonly CropPlan[]): string {
  const w = plant_words();
  const { more, less } = changes(crops);
  if (more.length && less.length) return w.more_and_less(names(more), names(less));
  if (more.length) return w.more(names(more));
  return less.length ? w.less(names(less)) : w.as_before;
}

/** "98 to 136 kg". */
export const band_words = ([low, , high]: Band): string =>
  plant_words().range(figures().weight(low), figures().weight(high));

export function had_words(plan: CropPlan): string {
  const last = had(plan);
  return last ? plant_words().had(figures().weight(last)) : '';
}

/** "54 plants", "64 m". */
export const plants_words = ({ unit, numbers }: Plants): string => amount(unit, numbers[1]);

export const plants_range = ({ unit, numbers: [half, , nearly_all] }: Plants): string =>
  plant_words().range(amount(unit, half), amount(unit, nearly_all));

const amount = (unit: Plants['unit'], n: number): string =>
  unit === 'plant' ? plant_words().plants(n) : figures().row_length(n);

/** "eaten 62 kg, lost 14 kg; all gone 14 March". */
export function winter_words(one: PastWinter): string {
  const w = plant_words();
  const told = (grams: number, say: (amount: string) => string) =>
    grams < 100 ? '' : say(figures().weight(grams));
  const parts = [
    told(one.eaten, w.eaten),
    told(one.given, w.given),
    told(one.put_by, w.put_by),
    told(one.lost, w.lost),
    one.ended ? '' : told(one.left, w.left),
  ].filter(Boolean);
  return one.ended ? w.ended(parts.join(', '), figures().full_day(one.ended)) : parts.join(', ');
}
