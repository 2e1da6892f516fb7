import { expect, test } from 'vitest';
import built from '../../reference/built/rules.json';
import type { Rules } from '../../storekeeping/rules';
import type { LotState } from '../../storekeeping/state';
import { to_use } from './turn';

const rules = built as unknown as Rules;

const lot = (id: string, crop: string, put_away_day: string, more: Partial<LotState> = {}): LotState =>
  ({
    id,
    crop,
    put_away_day,
    standing: [],
    suspects: [],
    finished: false,
    curing: false,
    keeps_until: null,
    food: { grams: 5000, pieces: 50 },
    known: 'worked_out',
    own_measure: 'grams',
    ...more,
  }) as unknown as LotState;
const seen = (finding: string) => [
  { finding, entry: 'e', pieces: 10, looked: 30, share: 0.33, suspect: false },
];
const order = (...lots: readonly LotState[]) => to_use(rules, lots, (crop) => crop).map((one) => one.lot.id);

test('the oldest comes first where nothing turns', () => {
  expect(order(lot('b', 'carrot', '2025-10-20'), lot('a', 'potato', '2025-09-30'))).toEqual(['a', 'b']);
});

test('what has come down the ladder goes before the older', () => {
  const limp = lot('c', 'carrot', '2025-11-01', { standing: seen('shrivelled') });
  expect(order(lot('a', 'potato', '2025-09-30'), limp)).toEqual(['c', 'a']);
});

test('a crop that begins at cook has not come down by being there', () => {
  const [potato] = to_use(rules, [lot('a', 'potato', '2025-09-30')], (crop) => crop);
  expect(potato).toMatchObject({ step: 'cook', from: 'cook', turning: false });
});

test('what is curing, finished or kept for seed is not for the kitchen', () => {
  const none = { grams: 0, pieces: 0 };
  expect(
    order(
      lot('a', 'carrot', '2025-10-01', { curing: true }),
      lot('b', 'carrot', '2025-10-01', { finished: true }),
      lot('c', 'carrot', '2025-10-01', { food: none }),
    ),
  ).toEqual([]);
});

test('a piece somebody said to use first brings its lot to the front', () => {
  const decided = lot('b', 'carrot', '2025-11-01', {
    suspects: [{ decisions: [{ stands: true, do: 'use_first', done: false }] }],
  } as unknown as Partial<LotState>);
  expect(order(lot('a', 'carrot', '2025-09-30'), decided)).toEqual(['b', 'a']);
});

test('what is presumed to be a scrap of a piece sends nobody to the cellar', () => {
  const food = { grams: 900, pieces: 0.3 };
  expect(
    order(lot('a', 'pumpkin', '2025-10-01', { food, own_measure: 'pieces', known: 'presumed' })),
  ).toEqual([]);
  expect(order(lot('a', 'pumpkin', '2025-10-01', { food, own_measure: 'pieces', known: 'counted' }))).toEqual(
    ['a'],
  );
});

test('what loses most by waiting goes first, and where the sheet is silent the oldest', () => {
  const sheet = [{ lot: 'c', grams: 800, lost: [400, 800, 1300] as const }];
  const lots = [
    lot('a', 'carrot', '2025-09-30'),
    lot('b', 'carrot', '2025-10-10'),
    lot('c', 'carrot', '2025-11-01'),
  ];
  const told = to_use(rules, lots, (crop) => crop, sheet);
  expect(told.map((one) => one.lot.id)).toEqual(['c', 'a', 'b']);
  expect(told.map(({ loses }) => loses)).toEqual([
    { grams: 800, low: 400, high: 1300 },
    undefined,
    undefined,
  ]);
});

test('what somebody said to use first goes before what loses most', () => {
  const decided = lot('b', 'carrot', '2025-11-01', {
    suspects: [{ decisions: [{ stands: true, do: 'use_first', done: false }] }],
  } as unknown as Partial<LotState>);
  const sheet = [{ lot: 'a', grams: 800, lost: [400, 800, 1300] as const }];
  const told = to_use(rules, [lot('a', 'carrot', '2025-09-30'), decided], (crop) => crop, sheet);
  expect(told.map((one) => one.lot.id)).toEqual(['b', 'a']);
});
