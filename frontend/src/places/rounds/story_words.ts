/** What a lot has been through, in one or two sentences. Reactive: reads `house` and the words. */
import type { LotState } from '../../storekeeping/state';
import { figures } from '../../words';
import { rounds_words } from '../../words/rounds';
import { house } from '../shared/house.svelte';
import { amount_words } from '../shared/lot_words';
import { finding_words } from './footing';
import { storyOf, type HowMuch } from './story';

const some = ({ pieces = 0, grams = 0 }: HowMuch): boolean => pieces > 0 || grams > 0;

export function storyWords(lot: LotState): string {
  const words = rounds_words().suspect;
  const story = storyOf(lot, house.whole?.went ?? [], house.lines);
  const amount = (much: HowMuch) => amount_words(lot.crop, much) ?? '';
  const since = [
    some(story.eaten) ? words.eaten(amount(story.eaten)) : '',
    some(story.given) ? words.given(amount(story.given)) : '',
    ...story.lost.map((lost) => words.lost(lostWords(lot, lost), finding_words(lost.finding))),
  ].filter(Boolean);
  const begun = words.put_away(figures().day(story.put_away_day), amount(story.put_away));
  return `${begun} ${since.length > 0 ? `${since.join(', ')}.` : words.nothing_lost}`;
}

/** Pieces say more of what was lost than a weight. */
const lostWords = (lot: LotState, lost: HowMuch): string =>
  lost.pieces === undefined ? (amount_words(lot.crop, lost) ?? '') : figures().pieces(lost.pieces);
