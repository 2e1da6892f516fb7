// What a small child is asked to do. Under five no poultry is touched: fixtures/reference/kitchen_safety.csv, `small_children`
// (US CDC advice, second-hand).
import { expect, test } from 'vitest';
import { adult_sum, near, one_back, one_broken, one_more } from './child';

test('a child under five comes to the fence and touches no bird', () => {
  expect(near(2022, 2026, true, false)).toBe('fence');
  expect(near(2018, 2026, true, false)).toBe('run');
});

test('whoever turns five this year counts as under five until it ends', () => {
  expect(near(2021, 2026, true, false)).toBe('fence');
  expect(near(2021, 2027, true, false)).toBe('run');
});

test('a child nobody said the year of is taken for under five', () => {
  expect(near(undefined, 2026, true, false)).toBe('fence');
});

test('no small child comes to the birds at all while an outbreak is marked', () => {
  expect(near(2018, 2026, true, true)).toBe('none');
  expect(near(2022, 2026, true, true)).toBe('none');
  expect(near(2018, 2026, false, true)).toBe('run');
});

test('any number of eggs, and a broken one counts as laid', () => {
  let basket = { eggs: 0, broken: 0 };
  for (let n = 0; n < 37; n += 1) basket = one_more(basket);
  expect(one_broken(basket)).toEqual({ eggs: 38, broken: 1 });
});

test('one back out takes a whole egg first and never goes below none', () => {
  expect(one_back({ eggs: 3, broken: 1 })).toEqual({ eggs: 2, broken: 1 });
  expect(one_back({ eggs: 1, broken: 1 })).toEqual({ eggs: 0, broken: 0 });
  expect(one_back({ eggs: 0, broken: 0 })).toEqual({ eggs: 0, broken: 0 });
});

test('the way out is a sum of two figures from 6 to 9', () => {
  for (const n of [0, 0.3, 0.6, 0.999]) {
    const { a, b } = adult_sum(() => n);
    expect(Math.min(a, b)).toBeGreaterThanOrEqual(6);
    expect(Math.max(a, b)).toBeLessThanOrEqual(9);
  }
});
