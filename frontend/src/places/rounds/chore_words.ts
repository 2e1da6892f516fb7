/** Chores in words: what, since or until when, who. Reactive: reads `house` and the words. */
import { figures } from '../../words';
import { chores_words } from '../../words/chores';
import { rounds_words } from '../../words/rounds';
import { house } from '../shared/house.svelte';
import { person_name, space_name, who } from '../shared/names';
import { capital, lot_name, short_lot_name } from '../shared/lot_words';
import type { Chore } from './chores';
import { findings_list } from './footing';
import { dayWords } from './home_words';

export function choreTitle(chore: Chore): string {
  const words = rounds_words().chores;
  const { small } = rounds_words();
  switch (chore.chore) {
    case 'decide':
      return words.decide(small(lot_name(chore.lot)));
    case 'carry_out':
      return words.do_it[chore.todo.do](small(lot_name(chore.lot)));
    case 'pick_over':
      return words.pick_over(small(short_lot_name(chore.lot)));
    case 'standing':
      return chore.name;
    case 'carry_pail':
    case 'take_up':
      return words[chore.chore](small(chore.name));
    case 'turn_heap':
      return words.turn_heap(chore.name);
    case 'asked':
      return asked_title(chore.what, chore.space ? space_name(chore.space) : chore.name);
  }
}

/** What the server asks for, in words; one of a newer server by its name. */
export const asked_title = (what: string, name: string): string =>
  chores_words().asked[what]?.(name) ?? (name || chores_words().a_chore);

/** A chore or a walk by its key alone: also one that is not asked for any more. */
export function key_title(key: string): string {
  const [what = '', named = ''] = key.split('/');
  if (what === 'roster') return chores_words().walk(space_name(named));
  const record = house.records.find(({ type, id }) => type === 'chore' && id === what);
  if (record) return String(record.values['name'] ?? '');
  return chores_words().asked[what]?.(space_name(named)) ?? chores_words().a_chore;
}

const doerWords = (doer: string | undefined): string =>
  doer === undefined ? rounds_words().chores.nobody : capital(who(doer));

export function choreDetail(chore: Chore): string {
  const words = rounds_words().chores;
  if (chore.chore === 'decide') {
    const { suspect, lot } = chore;
    const say = suspect.lies === 'held' ? words.held_by : words.set_apart_by;
    return say(person_name(suspect.person), dayWords(suspect.day), space_name(lot.space));
  }
  const since = chore.day < house.today ? `, ${chores_words().since(dayWords(chore.day))}` : '';
  const doer = `${doerWords(chore.doer)}${since}`;
  return chore.chore === 'pick_over' ? `${doer}. ${words.every_piece(findings_list(chore.findings))}` : doer;
}

/** On its own page: whose it is, and what was seen. */
export function choreFor(chore: Chore): string {
  const words = rounds_words().chores;
  if (chore.chore === 'decide') return choreDetail(chore);
  const whose = chore.doer === undefined ? words.nobodys : words.for_whom(who(chore.doer));
  return chore.chore === 'pick_over' ? `${whose} ${words.every_piece(findings_list(chore.findings))}` : whose;
}

/** For the margin: today whatever waits since before. */
export const choreDay = (chore: Chore): string =>
  chore.day <= house.today ? dayWords(house.today) : figures().short_weekday(chore.day);

/** Where it is opened. */
export function choreHref(chore: Chore): string {
  if (chore.chore === 'decide') return `#/rounds/suspect/${chore.suspect.id}`;
  if (chore.chore === 'turn_heap') return `#/scraps/heap/${chore.heap}`;
  return `#/rounds/chore/${encodeURIComponent(chore.key)}`;
}
