/** The sentence Rounds opens with, and who walks where. Reactive: reads `house` and the words. */
import { figures, words } from '../../words';
import { chores_words } from '../../words/chores';
import { rounds_words } from '../../words/rounds';
import { house } from '../shared/house.svelte';
import { person_name } from '../shared/names';
import { partOfDay, type Lead } from './home';
import { risked_g, walksOf } from './roster';
import type { Door } from './walk';

const WEEK = 7;

/** "Sunday" within a week, else "27 Jan". */
export const dayWords = (day: string): string => {
  const days = figures().days_between(house.today, day);
  if (days === 0) return words().when.today;
  if (days === 1) return words().when.tomorrow;
  return days > 0 && days < WEEK ? figures().weekday(day) : figures().short_day(day);
};

export function leadWords(lead: Lead, hour: number): string {
  const say = rounds_words().home;
  switch (lead.say) {
    case 'yours':
      return say.yours(lead.door.name, rounds_words().parts_of_day[partOfDay(hour)], lead.door.minutes);
    case 'begun':
      return say.begun(lead.door.name, lead.door.minutes);
    case 'theirs':
      return say.theirs(lead.door.name, person_name(lead.whose), lead.door.minutes);
    case 'nobodys':
      return say.nobodys(lead.door.name, lead.door.minutes);
    case 'nothing_due':
      return say.nothing_due(dayWords(lead.next.due));
    case 'nothing_there':
      return say.nothing_there;
  }
}

/** For a small child: what there is to do. */
export const childWords = (chores: number): string => rounds_words().home.child(chores);

export const nextWords = (door: Door): string =>
  [
    rounds_words().home.next(door.name, door.lots.length, door.minutes),
    door.whose.length > 0 ? `${whoseWords(door)}.` : '',
  ]
    .filter(Boolean)
    .join(' ');

/** "You, or Wil": on the last day in time two are asked. */
export function whoseWords(door: Door): string {
  const say = rounds_words().home;
  const [first, ...others] = [...door.whose].sort(
    (a, b) => Number(b === house.writer_id) - Number(a === house.writer_id),
  );
  if (first === undefined) return '';
  const name = first === house.writer_id ? say.you : person_name(first);
  return others.length > 0 ? `${name}, ${say.or(figures().list(others.map(person_name)))}` : name;
}

/** "2 days late", "due today", "Sunday". */
export function whenWords(door: Door): string {
  if (door.late > 0) return words().when.days_late(door.late);
  return door.due <= house.today ? words().when.due_today : dayWords(door.due);
}

/** "7 lots, about 16 min. You, or Wil". */
export function doorWords(door: Door): string {
  const say = rounds_words().home;
  const how = door.begun
    ? say.stopped_at(door.begun.at, door.begun.of, door.minutes)
    : say.lots_and_minutes(door.lots.length, door.minutes);
  return `${how} ${whoseWords(door)} ${riskWords(door)}`.trim();
}

/** What waiting has put at risk of a walk that is late; '' where nobody knows. */
function riskWords(door: Door): string {
  const walk = house.whole && walksOf(house.sheets, house.whole).find(({ space }) => space === door.space);
  const grams = risked_g(walk, door.late);
  return grams > 0 ? chores_words().risk(figures().weight(grams)) : '';
}
