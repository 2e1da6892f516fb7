/** What an act on the walk wrote, in the words that offer to undo it. Reactive: reads `house` and the words. */
import { figures } from '../../words';
import { rounds_words } from '../../words/rounds';
import { house } from '../shared/house.svelte';
import { short_lot_name } from '../shared/lot_words';
import { group_name } from '../shared/names';
import type { Kept, KeptWhat } from './draft';

const pieces = (n: number): string => figures().pieces(n);

function seenWords(told: Extract<KeptWhat, { what: 'seen' }>): string {
  const words = rounds_words().walk;
  return [
    told.out > 0 ? words.n_out(pieces(told.out)) : '',
    told.trimmed > 0 ? words.n_trimmed(pieces(told.trimmed)) : '',
    told.left > 0 ? words.n_left(pieces(told.left)) : '',
  ]
    .filter(Boolean)
    .join(', ');
}

/** The group's name where it goes to animals. */
function decidedWord(on: string): string {
  const [what = '', group] = on.split(':');
  const words: Readonly<Record<string, string>> = rounds_words().suspect.do_words;
  return group ? group_name(group) : (words[what] ?? what);
}

function actWords(lot: string, told: KeptWhat): string {
  const words = rounds_words().walk;
  switch (told.what) {
    case 'sound':
      return told.looked === undefined ? words.sound(lot) : words.sound_n(lot, pieces(told.looked));
    case 'seen':
      return words.seen(lot, seenWords(told));
    case 'not_looked':
      return words.not_looked(lot, rounds_words().not_looked.why[told.why] ?? '');
    case 'gone':
      return words.gone(lot);
    case 'decided':
      return words.decided(lot, decidedWord(told.on));
    case 'suspect':
      return told.lies === 'held' ? words.suspect_held(lot) : words.suspect_apart(lot);
  }
}

/** "Kept: carrot 2, all 30 sound". */
export function keptWords(kept: Kept): string {
  const lot = house.lot(kept.before.lot);
  const name = lot ? rounds_words().small(short_lot_name(lot)) : '';
  return rounds_words().walk.kept(actWords(name, kept.told));
}
