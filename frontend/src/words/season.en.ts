/** Season: what there is of every crop, how it is known, and the air of the rooms. */
import { many } from './many';

const count = many('en-GB');

export const season_en = {
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
};

export type SeasonWords = typeof season_en;
