import { expect, test } from 'vitest';
import { by_crop, by_way, scraps_between, week_of, type Scrapped } from './tally';

const row = (more: Partial<Scrapped>): Scrapped => ({
  way: 'compost',
  animals: null,
  crop: 'carrot',
  day: '2026-01-14',
  grams: 100,
  pieces: 1,
  accident: false,
  ...more,
});

test('a week runs from the household’s first day', () => {
  // 2026-01-14 is a Wednesday (ISO 8601 week 3)
  expect(week_of('2026-01-14', 1)).toEqual({ from: '2026-01-12', to: '2026-01-18' });
  expect(week_of('2026-01-14', 0)).toEqual({ from: '2026-01-11', to: '2026-01-17' });
  expect(week_of('2026-01-14', 1, 1)).toEqual({ from: '2026-01-05', to: '2026-01-11' });
});

test('what people ate, and other weeks, are left out', () => {
  const rows = [row({}), row({ way: 'cook' }), row({ way: 'eaten' }), row({ day: '2026-01-11' })];
  expect(scraps_between(rows, '2026-01-12', '2026-01-18')).toHaveLength(1);
});

test('each group of animals has a sum of its own, in the order of the ladder', () => {
  const rows = [
    row({ way: 'bin', grams: null, pieces: 2 }),
    row({ way: 'animals', animals: 'hens', grams: 300 }),
    row({ way: 'animals', animals: 'hens', grams: 200 }),
    row({ way: 'animals', animals: 'pigs', grams: 50 }),
    row({ way: 'pot', grams: 10 }),
  ];
  expect(by_way(scraps_between(rows, '2026-01-12', '2026-01-18'))).toEqual([
    { way: 'pot', animals: null, grams: 10, unweighed: 0 },
    { way: 'animals', animals: 'hens', grams: 500, unweighed: 0 },
    { way: 'animals', animals: 'pigs', grams: 50, unweighed: 0 },
    { way: 'bin', animals: null, grams: 0, unweighed: 2 },
  ]);
});

test('crops are told apart, the most first', () => {
  const rows = [
    row({ grams: 100 }),
    row({ crop: 'cabbage', grams: 400, way: 'animals' }),
    row({ grams: 50, way: 'bin' }),
  ];
  expect(
    by_crop(scraps_between(rows, '2026-01-12', '2026-01-18')).map(({ crop, all }) => [crop, all]),
  ).toEqual([
    ['cabbage', 400],
    ['carrot', 150],
  ]);
});
