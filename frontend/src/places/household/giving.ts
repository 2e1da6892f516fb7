/** What somebody can give, as a form sets it: a record's fields and back. Pure. */
import type { Body } from '../../ledger/index.ts';
import { numeric, text, texts } from '../shared/records.ts';

export const NEEDS = ['ladder', 'knife', 'lifting', 'not_alone'] as const;
export type Need = (typeof NEEDS)[number];
/** ISO 8601: 1 Monday to 7 Sunday. */
export const WEEK = ['1', '2', '3', '4', '5', '6', '7'] as const;

/** Crops that look unlike each other, for a child to be known by. */
export const PICTURES = [
  'apple',
  'pear',
  'carrot',
  'pumpkin',
  'beet',
  'onion',
  'cabbage',
  'walnut',
  'tomato',
] as const;

export interface Giving {
  minutes: number;
  weekdays: readonly (typeof WEEK)[number][];
  /** Year, as typed; '' not told. */
  born: string;
  cannot: readonly Need[];
  away_from: string;
  away_until: string;
  picture: string;
}

const listed = (value: Body[string] | undefined): readonly number[] =>
  Array.isArray(value) ? value.filter((one): one is number => typeof one === 'number') : [];

export const giving_of = (values: Body): Giving => ({
  minutes: numeric(values['minutes_a_week']) ?? 0,
  weekdays: WEEK.filter((day) => listed(values['weekdays']).includes(Number(day))),
  born: String(numeric(values['born']) ?? ''),
  cannot: NEEDS.filter((need) => texts(values['cannot']).includes(need)),
  away_from: text(values['away_from']),
  away_until: text(values['away_until']),
  picture: text(values['picture']),
});

/** The last day away stands before the first. */
export const away_backwards = ({ away_from, away_until }: Giving): boolean =>
  away_from !== '' && away_until !== '' && away_until < away_from;

const YEAR = /^(19|20|21)\d\d$/;

/** Fields to be kept; what is empty and was never set is left out. A year that is none is left as it was. */
export function giving_fields(giving: Giving, before: Body): Body {
  const born = giving.born.trim();
  const told: Readonly<Record<string, Body[string]>> = {
    minutes_a_week: giving.minutes || null,
    weekdays: giving.weekdays.map(Number).sort((a, b) => a - b),
    born: born === '' ? null : YEAR.test(born) ? Number(born) : (before['born'] ?? null),
    cannot: [...giving.cannot],
    away_from: giving.away_from || null,
    away_until: giving.away_until || null,
    picture: giving.picture || null,
  };
  const empty = (value: Body[string] | undefined): boolean =>
    value === undefined || value === null || (Array.isArray(value) && value.length === 0);
  return Object.fromEntries(
    Object.entries(told).filter(([name, value]) => !empty(value) || !empty(before[name])),
  );
}
