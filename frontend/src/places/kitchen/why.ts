/** Why a lot is to be used now, in a sentence or two. Reactive: reads `house` and the language. */
import type { StandingFinding } from '../../storekeeping/state';
import { figures } from '../../words';
import { kitchen_words } from '../../words/kitchen';
import { house } from '../shared/house.svelte';
import type { OnTheTurn } from './turn';

function seen(standing: StandingFinding): string {
  const name = house.reference.finding_name(standing.finding).toLocaleLowerCase();
  if (standing.pieces === null || standing.looked === null) return name;
  return kitchen_words().seen_on(name, figures().pieces(standing.pieces), figures().pieces(standing.looked));
}

export function why({ lot, loses }: OnTheTurn): string {
  const w = kitchen_words();
  const { weight } = figures();
  const days = figures().days_between(lot.put_away_day, house.today);
  const standing = lot.standing.filter((one) => !one.suspect);
  const open = lot.suspects.filter((suspect) => suspect.state === 'open').length;
  const first = lot.suspects.some((suspect) =>
    suspect.decisions.some((one) => one.stands && one.do === 'use_first' && !one.done),
  );
  return [
    loses ? w.loses(weight(loses.grams), figures().low_end(loses.low, loses.high), weight(loses.high)) : '',
    standing.length ? w.seen(standing.map(seen).join(', ')) : '',
    first ? w.use_first : '',
    open ? w.suspects(open) : '',
    lot.keeps_until ? w.keeps_until(figures().day(lot.keeps_until)) : '',
    loses ? '' : days > 0 ? w.age(days) : w.today,
  ]
    .filter(Boolean)
    .join(' ');
}
