// Two pails: an adult looks into the animals' before it is carried; a mixed one is compost.
import { expect, test } from 'vitest';
import type { Fact, Went } from '../../storekeeping/state';
import { is_barred, mixed_entries, pail_of } from './pails';

const TODAY = '2026-11-25';
const went = (more: Partial<Went>): Went => ({
  entry: 'peelings',
  kind: 'scrap',
  lot: null,
  crop: null,
  day: TODAY,
  when_ms: 1000,
  person: 'ruth',
  way: 'animals',
  bucket: 'shrink',
  pieces: null,
  grams: 800,
  findings: ['sound'],
  part: null,
  cut_in: 'yard',
  animals: 'hens',
  accident: false,
  unwritten: false,
  ...more,
});
const look = (id: string, when_ms: number, more: { mixed?: boolean; day?: string } = {}): Fact => ({
  id,
  kind: 'pail',
  person: 'ruth',
  when_ms,
  day: more.day ?? TODAY,
  body: { animals: 'hens', mixed: more.mixed ?? false },
  flags: [],
});
const done = (key: string) => ({
  [key]: { entry: 'x', person: 'pip', when_ms: 3000, day: TODAY, minutes: null, others: [] },
});
const state = (rows: readonly Went[], facts: readonly Fact[], chores_done = {}) =>
  pail_of('hens', { went: rows, facts, chores_done }, TODAY).state;

test('what was put in waits until an adult has looked', () => {
  expect(state([went({})], [])).toBe('full');
  expect(state([went({})], [look('a', 2000)])).toBe('ready');
});

test('what is put in after the look has to be looked at anew', () => {
  expect(state([went({}), went({ when_ms: 2500 })], [look('a', 2000)])).toBe('full');
});

test('carried, what lies is taken up, and then it is empty', () => {
  const carried = done(`pail/a/${TODAY}`);
  expect(state([went({})], [look('a', 2000)], carried)).toBe('carried');
  expect(state([went({})], [look('a', 2000)], { ...carried, ...done(`take_up/a/${TODAY}`) })).toBe('empty');
});

test('a pail of animals that get nothing now is carried to none, whoever looked into it', () => {
  const told = { went: [went({})], facts: [look('a', 2000)], chores_done: {} };
  expect(pail_of('hens', told, TODAY, true)).toMatchObject({ state: 'barred', rows: [{ animals: 'hens' }] });
  expect(pail_of('hens', { ...told, facts: [] }, TODAY, true).state).toBe('barred');
  expect(pail_of('hens', { ...told, went: [], facts: [] }, TODAY, true).state).toBe('empty');
});

test('ill, under treatment to a day, or kept in by order', () => {
  const hens = { kind: 'laying_hen' };
  expect(is_barred(hens, {}, TODAY)).toBe(false);
  expect(is_barred({ ...hens, withheld: true }, {}, TODAY)).toBe(true);
  expect(is_barred({ ...hens, withheld_until: TODAY }, {}, TODAY)).toBe(true);
  expect(is_barred({ ...hens, withheld_until: '2020-01-01' }, {}, TODAY)).toBe(false);
  expect(is_barred(hens, { housing_order: true }, TODAY)).toBe(true);
  expect(is_barred({ ...hens, housed: true }, { housing_order: true }, TODAY)).toBe(false);
  expect(is_barred({ kind: 'pig' }, { housing_order: true }, TODAY)).toBe(false);
});

test('a mixed pail is not carried', () => {
  expect(state([], [look('a', 2000, { mixed: true })])).toBe('empty');
});

test('yesterday’s look opens no pail today', () => {
  expect(state([went({ day: '2026-11-24' })], [look('a', 2000, { day: '2026-11-24' })])).toBe('empty');
});

test('accidents, other groups and what a round sends do not lie in the pail', () => {
  expect(state([went({ accident: true }), went({ animals: 'pigs' }), went({ kind: 'trim' })], [])).toBe(
    'empty',
  );
});

test('a mixed pail strikes what was written and writes it again as compost', () => {
  const pail = pail_of('hens', { went: [went({})], facts: [], chores_done: {} }, TODAY);
  const body = {
    findings: ['sound'],
    went: [
      { step: 'animals', animals: 'hens', grams: 800 },
      { step: 'compost', grams: 200 },
    ],
  };
  expect(mixed_entries(pail, () => body)).toEqual([
    { kind: 'strike', body: {}, strikes: 'peelings' },
    {
      kind: 'scrap',
      body: {
        findings: ['sound'],
        went: [
          { step: 'compost', grams: 800 },
          { step: 'compost', grams: 200 },
        ],
      },
    },
    { kind: 'pail', body: { animals: 'hens', mixed: true } },
  ]);
});
