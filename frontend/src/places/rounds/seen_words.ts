/** What somebody saw last of a lot, in words. Reactive: reads `house` and the words. */
import type { Id } from '../../ledger';
import type { LotState } from '../../storekeeping/state';
import { figures } from '../../words';
import { rounds_words } from '../../words/rounds';
import { house } from '../shared/house.svelte';
import { seenIn, type LastLook } from './story';

const pieces = (n: number): string => figures().pieces(n);

/** "1 out of 30", "all 12 sound". */
function sawWords(look: LastLook): string {
  const words = rounds_words().lot;
  switch (look.saw) {
    case 'counted':
      return words.last_counted;
    case 'put_away':
      return words.last_put_away;
    case 'out':
      return look.looked === undefined
        ? words.last_out_n(pieces(look.out))
        : words.last_out(pieces(look.out), pieces(look.looked));
    case 'sound':
      if (look.looked === undefined) return words.last_sound;
      return look.whole ? words.last_sound_n(pieces(look.looked)) : words.last_sample_n(pieces(look.looked));
  }
}

/** What an entry saw of its lot. */
export const seenWords = (entry: Id): string => sawWords(seenIn(house.lines.get(entry)));

/** "4 Jan: 1 out of 30". */
export const lastLookWords = (lot: LotState): string =>
  rounds_words().lot.last(figures().short_day(lot.last_look.day), seenWords(lot.last_look.entry));
