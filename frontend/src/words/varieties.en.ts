/** Season, Varieties: which of a crop kept better. */
import { many } from './many';

const count = many('en-GB');
const winters = (n: number): string => count(n, { one: 'one winter', other: '# winters' });

export const varieties_en = {
  nothing: 'There are too few finished lots to compare varieties.',
  nothing_how:
    'It takes finished lots of two named varieties of one crop. Name the variety when you put a lot away.',
  lead: {
    'not enough to tell': (crop: string, best: string, n: number) =>
      `${crop}: ${best} kept best so far, but ${winters(n)} cannot settle it.`,
    probably: (crop: string, best: string, n: number) =>
      `${crop}: ${best} probably keeps best, after ${winters(n)}.`,
    clearly: (crop: string, best: string, n: number) => `${crop}: ${best} keeps best, after ${winters(n)}.`,
  },
  compared: (weeks: number, n: number) =>
    `Lost of 100 in the first ${weeks} weeks in a good room, with the range your ${winters(n)} ${n === 1 ? 'allows' : 'allow'}.`,
  shrink: (middle: string, low: string, high: string) => `${middle} (${low} to ${high})`,
  about: (lots: string, weight: string, behind: string | undefined) =>
    behind ? `${lots}, ${weight}. ${behind}` : `${lots}, ${weight}`,
  behind: {
    'not enough to tell': 'Too few to tell: could as well be first',
    probably: 'Probably a worse keeper',
    clearly: 'Very likely a worse keeper',
  },
  side_by_side: 'Keep one lot of each side by side',
  side_by_side_more:
    'next winter, and the answer comes sooner: till now the room may be what made the difference.',
  how: 'By your finished lots. A variety of few lots is taken to be like its crop until its own lots say otherwise.',
  as_of: (when: string) => `As of ${when}.`,
};

export type VarietiesWords = typeof varieties_en;
