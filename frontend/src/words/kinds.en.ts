/** What happened, in a few words: one set a kind of entry. */
import { many } from './many';

const count = many('en-GB');

export const kinds_en = {
  put_away: { verb: 'Put away' },
  take: { verb: 'Took', for: { eat: '', give: 'given away', seed: 'for seed' }, last: 'the last of it' },
  cull: { verb: 'Out' },
  trim: { verb: 'Trimmed' },
  move: { verb: 'Moved', part: 'Moved a part', to: (space: string) => `to ${space}` },
  count: {
    verb: 'Counted',
    gone: {
      eaten: 'the rest was eaten',
      given: 'the rest was given away',
      lost: 'the rest was lost',
      dried: 'the rest dried out',
      unknown: 'nobody knows where the rest went',
    },
  },
  set_aside: {
    verb: 'Set aside for seed',
    freed: 'No longer for seed',
    treated: 'dressed, so no food any more',
  },
  put_by: {
    verb: 'Put by',
    method: { freeze: 'frozen', dry: 'dried', ferment: 'fermented', jar: 'jarred' },
    containers: (n: number) => count(n, { one: '1 container', other: '# containers' }),
  },
  reading: {
    verb: 'Air read',
    low: (temp: string) => `coldest ${temp}`,
    high: (temp: string) => `warmest ${temp}`,
  },
  round: { verb: 'Round walked' },
  inspection: {
    verb: 'Looked over',
    none: 'Not looked at',
    why_not: { out_of_reach: 'out of reach', no_time: 'no time', other: '' },
    sound: 'all sound',
    out: (n: string) => `${n} out`,
    trimmed: (n: string) => `${n} trimmed`,
    some_trimmed: 'some trimmed',
  },
  suspect: { verb: 'Suspect', lies: { held: 'held where it lies', set_apart: 'set apart' } },
  decision: {
    verb: 'Decided',
    do: {
      keep: 'keep',
      use_first: 'use first',
      trim: 'trim and use',
      raw: 'raw',
      cook: 'cook',
      pot: 'pot',
      animals: 'animals',
      compost: 'compost',
      bin: 'bin',
    },
  },
  chore_done: { verb: 'Done', chore: 'a chore' },
  claim: {
    verb: 'Taken on',
    chore: 'a chore',
    pick_over: (lot: string) => `pick over ${lot}`,
    walk: (space: string) => `walk ${space}`,
  },
  offer: { verb: 'Given away' },
  scrap: { verb: 'Scraps', mixed: 'mixed' },
  lay: {
    verb: 'Eggs',
    eggs: (n: number) => count(n, { one: '1 egg', other: '# eggs' }),
    broken: (n: number) => count(n, { one: '1 broken', other: '# broken' }),
  },
  pail: { verb: 'Looked into the pail', fed: 'it may be fed', mixed: 'mixed, so it is compost' },
  heap: {
    verb: 'Heap',
    did: { added: 'added', turned: 'turned', warmth: 'warm inside', spread: 'spread on a bed' },
    inside: (temp: string) => `${temp} inside`,
    spread_on: (bed: string) => `spread on ${bed}`,
    materials: {
      straw: 'straw',
      leaves: 'leaves',
      cardboard: 'cardboard',
      wood_chips: 'wood chips',
      grass: 'grass cuttings',
      hen_manure: 'hen manure',
      horse_manure: 'horse manure',
    } as Readonly<Record<string, string>>,
  },
  strike: { verb: 'Struck out' },
  edit: {
    verb: 'Described anew',
    types: {
      household: 'household',
      person: 'person',
      space: 'space',
      lot: 'lot',
      animals: 'animals',
      weekly_use: 'weekly use',
      guests: 'guests',
      vessel: 'vessel',
      heap: 'heap',
      chore: 'chore',
      crop: 'crop',
      figure: 'own figure',
    } as Readonly<Record<string, string>>,
  },
  unknown: 'Made by a newer version',
  not_here: 'a lot not on this phone',
  went_to: {
    raw: 'eaten raw',
    cook: 'to cook',
    pot: 'to the pot',
    animals: 'to the animals',
    compost: 'to compost',
    bin: 'to the bin',
  },
  to_group: (group: string) => `to ${group}`,
  cut_in: { store: 'in the store', yard: 'in the yard', kitchen: 'in the kitchen' },
  accident: 'accident',
  guessed: 'guessed',
  with_photos: (n: number, size: string) =>
    `${count(n, { one: '1 photo', other: '# photos' })}${size ? `, ${size}` : ''}`,
};

export type KindWords = typeof kinds_en;
