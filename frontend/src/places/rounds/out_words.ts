/** What a lot step writes, in the words of its key: "2 to cook, 1 to compost". Reactive: reads the words. */
import { STEPS, type Step } from '../../look/ladder';
import { figures } from '../../words';
import { rounds_words } from '../../words/rounds';
import { group_name } from '../shared/names';
import { piecesGoing, type Going, type LotInHand } from './lotstep';

const stepOf = (row: string): Step => STEPS.find((step) => step === row.split(':')[0]) ?? 'compost';

/** "cook", "the hens": a row of the ladder as the end of a sentence. */
export function toWords(row: string): string {
  const [, group] = row.split(':');
  return group ? rounds_words().out.to_group(group_name(group)) : rounds_words().out.to_step[stepOf(row)];
}

function together(goings: readonly Going[], say: (n: string, to: string) => string): readonly string[] {
  const rows = [...new Set(goings.map(({ to }) => to).filter((to) => to !== undefined))];
  return rows.map((row) => {
    const pieces = goings.filter(({ to }) => to === row).reduce((sum, going) => sum + going.pieces, 0);
    return say(figures().pieces(pieces), toWords(row));
  });
}

/** As many letters as stand on the key in three lines; more would push the page away. */
const KEY_HOLDS = 48;

/** What is written when the lot is passed now: each with its place, or in sums where that is too long for a key. */
export function writesWords(hand: LotInHand): string {
  const { out, walk } = rounds_words();
  const of = (way: Going['way']) => hand.goings.filter((going) => going.way === way);
  const sum = (way: Going['way'], say: (n: string) => string) =>
    of(way).length > 0 ? [say(figures().pieces(piecesGoing(hand, way)))] : [];
  const left = sum('left', out.left_n);
  const whole = [...together(of('out'), out.to), ...together(of('trim'), out.trimmed_to), ...left].join(', ');
  return whole.length <= KEY_HOLDS
    ? whole
    : [...sum('out', walk.n_out), ...sum('trim', walk.n_trimmed), ...left].join(', ');
}

/** "3 out. Where each goes". */
export function whereHeading(out: number, trimmed: number): string {
  const words = rounds_words().out;
  const n = (pieces: number) => figures().pieces(pieces);
  if (out > 0 && trimmed > 0) return words.where_mixed(n(out), n(trimmed));
  if (trimmed > 0) return words.where_trimmed(n(trimmed));
  return out > 0 ? words.where_each(n(out)) : words.nothing_out;
}

/** "All 30 sound". */
export const soundWords = (looked: number | undefined): string =>
  looked === undefined
    ? rounds_words().lot.all_sound
    : rounds_words().lot.all_n_sound(figures().pieces(looked));
