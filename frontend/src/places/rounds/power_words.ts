/** A power cut in words: until when, which space stays shut. Reactive: reads `house` and the words. */
import { figures } from '../../words';
import { power_words } from '../../words/power';
import { house } from '../shared/house.svelte';
import { lastAir } from './air';
import { needs } from './power';

/** "14:00", "14:00 tomorrow", "14:00 on Friday". */
export function momentWords(when: Date): string {
  const words = power_words();
  const time = figures().time(when);
  const day = figures().day_of(when);
  const days = figures().days_between(house.today, day);
  if (days === 0) return time;
  return days === 1 ? words.tomorrow(time) : words.on(time, figures().weekday(day));
}

const kindOf = (space: string): string => house.space(space)?.kind ?? '';

/** What stands in the space, each kind once: "frozen peas, frozen berries". */
const whatIsIn = (space: string): string =>
  [...new Set(house.lots_in(space).map((lot) => lot.label ?? house.reference.crop_name(lot.crop)))].join(
    ', ',
  );

export interface SpaceRow {
  readonly margin: string;
  readonly title: string;
  readonly soft: string;
}

/** Spaces that stay shut first; those that need no power together in one row. */
export function spaceRows(): readonly SpaceRow[] {
  const words = power_words();
  const shut = house.spaces
    .filter(({ id }) => needs(kindOf(id)) !== 'nothing')
    .sort((a, b) => Number(needs(kindOf(a.id)) === 'warmth') - Number(needs(kindOf(b.id)) === 'warmth'))
    .map(({ id, name }): SpaceRow => {
      const temp = lastAir(house.whole?.facts ?? [], id).values.temp_c;
      const warmth = temp === undefined ? words.warmed : words.warmed_now(figures().temp(temp));
      const inside = whatIsIn(id) || words.nothing_in_it;
      return { margin: words.shut, title: name, soft: needs(kindOf(id)) === 'power' ? inside : warmth };
    });
  const others = house.spaces.filter(({ id }) => needs(kindOf(id)) === 'nothing').map(({ name }) => name);
  return others.length === 0
    ? shut
    : [...shut, { margin: words.as_ever, title: others.join(', '), soft: words.no_power }];
}
