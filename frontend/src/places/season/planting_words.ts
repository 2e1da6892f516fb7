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
  plant_words().range(figures().low_end(low, high), figures().weight(high));

/** "98 to 136": the unit stands beside it. */
export const bare_band = ([low, , high]: Band): string => {
  const { number, weigh } = figures();
  const bare = (grams: number) => number(weigh(grams), weigh(high) < 10 ? 1 : 0);
  return plant_words().range(bare(low), bare(high));
};

export function had_words(plan: CropPlan): string {
  const last = had(plan);
  return last ? plant_words().had(figures().weight(last)) : '';
}

/** "54", "64 m". */
export const plants_short = ({ unit, numbers }: Plants): string =>
  unit === 'plant' ? figures().number(numbers[1], 0) : amount(unit, numbers[1]);

/** "54 plants", "64 m". */
export const plants_words = ({ unit, numbers }: Plants): string => amount(unit, numbers[1]);

export const plants_range = ({ unit, numbers: [half, , nearly_all] }: Plants): string =>
  plant_words().range(amount(unit, half), amount(unit, nearly_all));

const amount = (unit: Plants['unit'], n: number): string =>
  unit === 'plant' ? plant_words().plants(n) : figures().row_length(n);

/** "2025/26: 121 kg put away". */
export function winter_title({ winter, put_away }: PastWinter): string {
  const next = String((winter + 1) % 100).padStart(2, '0');
  return plant_words().winter(String(winter), next, figures().weight(put_away));
}

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
