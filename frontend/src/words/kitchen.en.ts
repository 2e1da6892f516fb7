/** Kitchen: what to use now, and why. */
import { many } from './many';

const count = many('en-GB');

export const kitchen_en = {
  nothing: 'Nothing is put away that could be used.',
  begin: 'Put away the first lot',
  all_young: (name: string) => `Nothing is on the turn. The oldest is ${name}.`,
  first: (name: string) => `${name} first.`,
  age: (days: number) => count(days, { one: 'In the store for 1 day.', other: 'In the store for # days.' }),
  today: 'Put away today.',
  seen: (findings: string) => `Seen last: ${findings}.`,
  seen_on: (finding: string, pieces: string, looked: string) => `${finding} on ${pieces} of ${looked}`,
  keeps_until: (day: string) => `Best by ${day}.`,
  use_first: 'Somebody decided: use first.',
  suspects: (n: number) =>
    count(n, { one: 'One piece waits for a decision.', other: '# pieces wait for a decision.' }),
  took_some: 'Took some',
  why: 'Why',
  rest: (n: number) => count(n, { one: 'And 1 more', other: 'And # more' }),
  photo: (name: string, day: string) => `${name}, ${day}`,
};

export type KitchenWords = typeof kitchen_en;
