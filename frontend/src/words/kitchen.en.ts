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
  source: 'source',
  tabs: { turn: 'On the turn', may_i: 'May I?', pot: 'Pot', put_by: 'Put by' },
  may_i: {
    title: 'What may I do with this?',
    from_store: 'From the store',
    in_hand: 'Anything in hand',
    any_crop: 'Any other',
    choose_crop: 'Choose',
    another: 'Another',
    what_seen: 'What do you see?',
    other_findings: 'Something else',
    which_part: 'Only a part of it?',
    whole_hint: 'None chosen: the whole piece.',
    where_cut: 'Where is it cut?',
    places: { store: 'store', yard: 'yard', kitchen: 'kitchen' },
    say_what: 'Say what you see on it.',
    ask_adult: 'An adult says what it is good for.',
    heads: {
      raw: 'Raw, cooked, as you like.',
      trim: 'Trim it and cook it soon.',
      cook: 'Cook it.',
      pot: 'For the stock pot.',
      animals: 'For the animals, not for people.',
      compost: 'For the compost, not to eat.',
      bin: 'For the bin, not to eat.',
      not_known: 'Not known.',
    },
    not_raw: 'Not raw.',
    not_known_lead: 'Not known.',
    not_known_more:
      'No table tells what this is good for. Not to eat, and to no animal, until somebody who knows has looked at it.',
    best_first: 'Best first',
    why: 'Why',
    covered: 'Soft, slimy or covered with it: none of this.',
    defer:
      'This page says what is known and from where; it cannot see or smell. Your food authority’s word goes before it.',
    cut_down: 'Cut it down',
  },
  cut: {
    pieces: 'Pieces in hand',
    off: 'Cut off otherwise',
    how_much: (part: string) => `${part}: how much`,
    where_to: (part: string) => `${part}: where it goes`,
    rest: (grams: string) => `The good inside, about ${grams}: to the table.`,
    rest_unweighed: 'The good inside: to the table.',
    too_much: 'More is cut off than the piece weighed. Set less, or more pieces.',
    back: 'Back',
    keep: 'Cut and to the table',
    kept: 'Kept: cut down, the good to the table',
  },
};

export type KitchenWords = typeof kitchen_en;
