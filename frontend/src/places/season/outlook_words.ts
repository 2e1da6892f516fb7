/** A crop's outlook in sentences. Reactive through `words`. */
import { figures } from '../../words';
import { season_words } from '../../words/season';
import { day_after, MOST_DAYS, type CropOutlook } from './outlook';

/** "Last to 14 June (17 May to 21 Jul)." */
export function reach_words({ day, reach }: CropOutlook): string {
  const w = season_words();
  if (!reach) return w.no_use;
  const [low, middle, high] = reach;
  if (low >= MOST_DAYS) return w.lasts_over;
  const short = (days: number) => figures().short_day(day_after(day, days));
  const late = high >= MOST_DAYS ? w.over_a_year : short(high);
  return middle >= MOST_DAYS
    ? w.lasts_from(short(low))
    : w.lasts(figures().day(day_after(day, middle)), short(low), late);
}

/** "22 in 100 to meet the new crop about 4 Jul." */
export function harvest_words({ harvest }: CropOutlook): string {
  if (!harvest) return '';
  const w = season_words();
  const day = figures().short_day(harvest.day);
  const in_100 = Math.round(harvest.chance * 100);
  if (in_100 < 1) return w.hardly_meets(day);
  return in_100 > 99 ? w.surely_meets(day) : w.meets(in_100, day);
}

/** What the band shows: today, and eight weeks on. */
export function plot_words({ weeks }: CropOutlook): string {
  const [now, later] = [weeks[0], weeks[8] ?? weeks.at(-1)];
  if (!now || !later) return '';
  const weight = (grams: number) => figures().weight(grams);
  return season_words().band(
    weight(now[1]),
    Math.min(8, weeks.length - 1),
    figures().low_end(later[0], later[2]),
    weight(later[2]),
  );
}
