/** How a lot is keeping, on its page. */
import { many } from './many';

const count = many('en-GB');

export const keeping_en = {
  title: 'How it is keeping',
  sound: (now: string, low: string, high: string) => `${now} of 100 still sound (${low} to ${high}).`,
  expected: (low: string, high: string) => `Expected by now: ${low} to ${high}.`,
  word: { behind: 'Behind.', ahead: 'Ahead.', as_expected: 'As expected.' } as Readonly<
    Record<string, string>
  >,
  of_what: 'Of what was put away and not eaten.',
  expected_by: 'Expected by the handbook, and by your own finished lots as they come.',
  look_every: (days: number) => `Look it over every ${count(days, { one: 'day', other: '# days' })} now.`,
  as_of: (when: string) => `As of ${when}.`,
  as_of_moved: (when: string) => `As of ${when}; rounds since have their rings, the ranges do not know them.`,
  legend_expected: 'expected, 8 in 10',
  legend_likeliest: 'likeliest',
  legend_rounds: 'rings: your rounds; bar: now',
  drawn: (now: string, expected: string, later: string, weeks: number) =>
    `${now} of 100 sound now, ${expected} expected; ${later} expected ${count(weeks, { one: '1 week', other: '# weeks' })} after put-away.`,
  silent: {
    no_figures: 'Too little is known of it to say: no storage life, no weight of a piece or no amount.',
    no_sense: 'Nothing could be worked out from what is written of it.',
  } as Readonly<Record<string, string>>,
  cannot_be: (why: string) => `Nothing could be worked out. ${why}`,
  as_table: 'As a table',
  day: 'Day',
  low: 'low',
  likely: 'expected',
  high: 'high',
  rounds: 'Your rounds',
  left: 'of 100 sound',
};

export type KeepingWords = typeof keeping_en;
