/** Season: what there is of every crop, how it is known, and the air of the rooms. */
import { many } from './many';

const count = many('en-GB');

export const season_en = {
  tabs: { outlook: 'Outlook', rooms: 'Rooms', weeks: 'Weeks', varieties: 'Varieties', plant: 'Plant' },
  nothing: 'Nothing is put away yet, so there is nothing to look ahead to.',
  begin: 'Put away the first lot',
  lead: (amount: string, crops: string) => `About ${amount} of ${crops} are in the store.`,
  lead_lots: (lots: string, crops: string) => `${lots} of ${crops} are in the store.`,
  crops: (n: number) => count(n, { one: '1 crop', other: '# crops' }),
  known: (counted: number, worked_out: number, presumed: number) =>
    [
      counted ? `${count(counted, { other: '#' })} counted` : '',
      worked_out ? `${count(worked_out, { other: '#' })} worked out` : '',
      presumed ? `${count(presumed, { other: '#' })} presumed: nobody wrote anything down lately` : '',
    ]
      .filter(Boolean)
      .join(', '),
  lots_known: 'Lots:',
  by_crop: 'By crop',
  eaten: (amount: string) => `eaten ${amount}`,
  given: (amount: string) => `given away ${amount}`,
  lost: (amount: string) => `lost ${amount}`,
  put_by: (amount: string) => `put by ${amount}`,
  of: (amount: string) => `of ${amount} put away`,
  rooms: 'Rooms, as read last',
  no_reading: 'not read yet',
  coldest: (temp: string) => `coldest ${temp}`,
  warmest: (temp: string) => `warmest ${temp}`,
  winters: '8 winters in 10',
  likeliest: 'likeliest',
  new_harvest: 'new harvest',
  not_ahead: 'Counted, not looked ahead',
  lasts: (day: string, low: string, high: string) => `Last to ${day} (${low} to ${high}).`,
  lasts_from: (low: string) => `Last over a year; 1 winter in 10 only to ${low}.`,
  lasts_over: 'Last over a year.',
  over_a_year: 'over a year',
  no_use: 'Nobody told how much is eaten a week; this is what keeps.',
  meets: (in_100: number, day: string) => `${in_100} in 100 to meet the new crop about ${day}.`,
  hardly_meets: (day: string) => `Less than 1 in 100 to meet the new crop about ${day}.`,
  surely_meets: (day: string) => `Over 99 in 100 to meet the new crop about ${day}.`,
  band: (now: string, weeks: number, low: string, high: string) =>
    `About ${now} sound now; ${low} to ${high} in ${count(weeks, { one: '1 week', other: '# weeks' })}.`,
  as_of: (when: string) => `As of ${when}.`,
  as_of_moved: (when: string) => `As of ${when}, moved by what was written since; the chance is not.`,
  bands_held: 'How well did the bands hold?',
  as_table: 'As a table',
  day: 'Day',
  low: 'low',
  high: 'high',
  one_in_ten: 'One winter in ten is under the low, one in ten over the high.',
};

export type SeasonWords = typeof season_en;
