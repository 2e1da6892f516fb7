/** The weeks ahead, in words. Reactive through `words` and `house`. */
import { figures } from '../../words';
import { weeks_words } from '../../words/weeks';
import { crop_name } from '../shared/lot_words';
import type { Turning } from '../shared/on_the_turn';
import type { Week, WeeksAhead } from './weeks';

/** A lot that loses more of itself than this by a week of waiting goes first. Ours, as for what is put by. */
const GOES_FIRST = 0.03;
const AT_MOST = 2;

/** Crops that lose most by waiting, among those the first weeks eat. */
export function first_crops(
  plan: WeeksAhead,
  turning: readonly Pick<Turning, 'lot' | 'share'>[],
  crop_of: (lot: string) => string | undefined,
): readonly string[] {
  const soon = new Set(plan.weeks.slice(0, 2).flatMap(({ eaten }) => eaten.map(({ crop }) => crop)));
  const crops = turning.filter(({ share }) => share >= GOES_FIRST).map(({ lot }) => crop_of(lot));
  return [...new Set(crops)]
    .filter((crop) => crop !== undefined && soon.has(crop))
    .slice(0, AT_MOST) as string[];
}

/** "Eat squash and celery first; hold beet back until 2 February." */
export function lead_words(plan: WeeksAhead, first: readonly string[], today: string): string {
  const w = weeks_words();
  const eat = figures().list(first.map(crop_name));
  const [held] = [...plan.held].sort((a, b) => (a.until < b.until ? 1 : -1));
  const hold = held && w.hold(crop_name(held.crop), figures().day(held.until));
  if (eat && hold) return w.eat_and_hold(eat, hold);
  if (eat) return w.eat(eat);
  if (hold) return w.only_hold(hold);
  const over = [...new Set(plan.over.filter(({ day }) => day <= today).map(({ crop }) => crop))];
  return over.length ? w.over_now(figures().list(over.slice(0, AT_MOST).map(crop_name))) : w.all_keep;
}

export function saved_words({ saved: [low, middle, high] }: WeeksAhead): string {
  const w = weeks_words();
  const { weight } = figures();
  return middle < 500 ? w.saves_little : w.saves(weight(middle), figures().low_end(low, high), weight(high));
}

/** "13 Jan", or the first day and how many weeks. */
export const when_words = ({ day, weeks }: Week): string | readonly string[] =>
  weeks === 1 ? figures().short_day(day) : [figures().short_day(day), weeks_words().weeks(weeks)];

/** The number alone: the unit stands at the end of the line. */
export const bare_weight = (grams: number): string =>
  grams < figures().grams(0.95)
    ? figures().number(figures().weigh(grams), 1)
    : figures().number(figures().weigh(grams), 0);
