import { expect, test } from 'vitest';
import {
  by_crop,
  by_way,
  days_from,
  scraps_between,
  share_weighed,
  week_of,
  winter_from,
  with_others,
  type Scrapped,
} from './tally';

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

test('a winter runs from August, in the south from February', () => {
  expect(winter_from('2026-11-25', 'north')).toBe('2026-08-01');
  expect(winter_from('2027-01-05', 'north')).toBe('2026-08-01');
  expect(winter_from('2026-01-31', 'south')).toBe('2025-02-01');
  expect(winter_from('2026-02-01', 'south')).toBe('2026-02-01');
});

test('every day of a span is told, both ends too', () => {
  expect(days_from('2026-02-27', '2026-03-01')).toEqual(['2026-02-27', '2026-02-28', '2026-03-01']);
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
  const sums = by_way(scraps_between(rows, '2026-01-12', '2026-01-18'));
  expect(sums.map(({ way, animals, grams, unweighed }) => [way, animals, grams, unweighed])).toEqual([
    ['pot', null, 10, 0],
    ['animals', 'hens', 500, 0],
    ['animals', 'pigs', 50, 0],
    ['bin', null, 0, 2],
  ]);
});

test('crops are told apart, the most first, and each by where it went', () => {
  const rows = [
    row({ grams: 100 }),
    row({ crop: 'cabbage', grams: 400, way: 'animals', animals: 'hens' }),
    row({ grams: 50, way: 'bin' }),
  ];
  const scraps = scraps_between(rows, '2026-01-12', '2026-01-18');
  const crops = by_crop(scraps);
  expect(crops.map(({ crop, all }) => [crop, all])).toEqual([
    ['cabbage', 400],
    ['carrot', 150],
  ]);
  const [hens] = by_way(scraps);
  expect(hens?.way).toBe('animals');
  expect(crops[0]?.grams[hens?.key ?? '']).toBe(400);
});

test('what does not say how it was measured was weighed', () => {
  const rows = [
    { ...row({ grams: 900 }), entry: 'a' },
    { ...row({ grams: 100 }), entry: 'b' },
    { ...row({ grams: null }), entry: 'c' },
  ];
  const told = (entry: string) => (entry === 'b' ? ('guessed' as const) : undefined);
  const scraps = scraps_between(rows, '2026-01-12', '2026-01-18');
  expect(share_weighed(scraps, told)).toBeCloseTo(0.9);
  expect(share_weighed([], told)).toBeUndefined();
});

test('beyond the first, crops stand together in one row', () => {
  const rows = ['a', 'b', 'c', 'd'].map((crop, i) => ({ crop, grams: { x: 10 - i }, all: 10 - i }));
  const { shown, others } = with_others(rows, 2);
  expect(shown.map(({ crop }) => crop)).toEqual(['a', 'b']);
  expect(others).toEqual({ grams: { x: 15 }, all: 15 });
  expect(with_others(rows.slice(0, 3), 2).others).toBeUndefined();
});
