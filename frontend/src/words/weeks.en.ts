/** Season, Weeks: what to eat when. */
import { many } from './many';

const count = many('en-GB');

export const weeks_en = {
  nothing: 'There is no plan yet.',
  nothing_how:
    'It takes a crop in store that somebody eats of, or a weekly use told under Plant. The household’s server works it out.',
  eat_and_hold: (crops: string, hold: string) => `Eat ${crops} first; ${hold}.`,
  eat: (crops: string) => `Eat ${crops} first.`,
  hold: (crop: string, day: string) => `hold ${crop} back until ${day}`,
  only_hold: (hold: string) => `All keeps well; ${hold}.`,
  over_now: (crops: string) => `There is more ${crops} than you will eat: put some by, or give it away.`,
  all_keep: 'All keeps well: the order hardly matters.',
  saves: (middle: string, low: string, high: string) =>
    `Eaten in this order about ${middle} more is eaten (${low} to ${high}) than at an even pace.`,
  saves_little: 'At an even pace hardly more would be lost.',
  by_week: 'Week by week',
  later: 'On to the new harvest',
  weeks: (n: number) => count(n, { one: '1 week', other: '# weeks' }),
  over: 'Put by, or give away',
  over_more: 'More than you will eat before it is lost.',
  none_over: 'Nothing is over: all of it will be eaten.',
  now: 'now',
  put_by_or_give: 'put it by, or give it away while it is good',
  give: 'give it away while it is good',
  sound_only: 'Sound pieces only: what shows rot is not put by and not given.',
  how: 'By your weekly use, guests and days away, and what each lot is expected to lose.',
  as_of: (when: string) => `As of ${when}.`,
};

export type WeeksWords = typeof weeks_en;
