import { expect, test } from 'vitest';
import type { Sheet } from '../../ledger';
import { surplus_of } from './surplus';

const plan = (...surplus: readonly object[]): Sheet =>
  ({
    key: 'plan/carrot',
    kind: 'plan',
    as_of: 7,
    made_at: '',
    inputs: {},
    content: { surplus },
  }) as unknown as Sheet;
const row = (lot: string, grams: number) => ({ lot, grams, day: '2026-12-30' });

test('what will not be eaten in time, the most first; a handful is eaten by the way', () => {
  const told = surplus_of([plan(row('a', 1200), row('b', 5200), row('c', 90))], () => 1);
  expect(told.map(({ lot, grams }) => [lot, grams])).toEqual([
    ['b', 5200],
    ['a', 1200],
  ]);
});

test('what went since is no surplus any more, and more than the sheet knew makes no more', () => {
  const share = (lot: string, as_of: number) => (as_of === 7 && lot === 'a' ? 0.5 : 2);
  expect(surplus_of([plan(row('a', 1200), row('b', 1000))], share).map(({ grams }) => grams)).toEqual([
    1000, 600,
  ]);
  expect(surplus_of([plan(row('a', 1200))], () => 0)).toEqual([]);
});

test('a sheet of another shape reads as none', () => {
  expect(surplus_of([plan('soon' as unknown as object), { ...plan(), kind: 'outlook' }], () => 1)).toEqual(
    [],
  );
});
