/** Season: how well the household's own forecasts held. */
import { many } from './many';

const count = many('en-GB');

export const score_en = {
  title: 'How well the bands held',
  back: 'Season',
  lead: (within: string, of: string, pct: string) =>
    `${within} of ${of} forecasts came true within their band: ${pct}.`,
  should: 'It should be about 80 %.',
  handbook: (within: string, of: string) => `The handbook alone: ${within} of ${of}.`,
  none: (made: number) =>
    made
      ? `${count(made, { one: '1 forecast is', other: '# forecasts are' })} kept; the day of none has come and been seen yet.`
      : 'No forecast is kept yet.',
  of: {
    sound_28: 'Sound after four weeks',
    sound_56: 'Sound after eight weeks',
    run_out: 'The day it runs out',
  },
  held: (within: string, of: string) =>
    `Of ${of} bands, ${within} held; the dashed line is where it should be.`,
  as_table: 'As a table',
  ours: 'ours',
  books: 'handbook alone',
  within: 'Within the band',
  interval: 'Band score, less is better',
  chances: 'Chances to last',
  brier: (ours: string, books: string) =>
    `Their mean square miss is ${ours}, the handbook’s ${books}; less is better.`,
  said_chance: 'Said, in 100',
  said: 'how often',
  came: 'came true',
  from_to: (from: string, to: string) => `${from} to ${to}`,
  widened: (by: string) => `By what came of them, bands are now drawn ${by} times as wide.`,
  narrowed: (by: string) => `By what came of them, bands are now drawn narrower, ${by} times as wide.`,
  how: 'One forecast a lot and week is kept as it was made. A full look or a count near its day tells what came of it.',
  as_of: (when: string) => `As of ${when}.`,
};

export type ScoreWords = typeof score_en;
