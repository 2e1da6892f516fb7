// Diet and heap as `fixtures/vectors/scraps.json` tells, its sources beside each case: the same as on the server.
import { describe, expect, it } from 'vitest';
import vectors from '../../../fixtures/vectors/scraps.json';
import { kitchen_reference } from '../reference';
import { diet_of, hen_day_lay, type Fed } from './diet.ts';
import { asks_for, balance_of, to_add_kg, turn_on, usable_from, was_hot, type HeapValues } from './heap.ts';

const near = (told: unknown, expected: unknown, digits: number): void => {
  if (typeof expected === 'number') expect(told).toBeCloseTo(expected, digits);
  else if (expected === null) expect(told).toBeNull();
  else
    for (const [name, value] of Object.entries(expected as object))
      near((told as Record<string, unknown>)[name], value, digits);
};
/** To two in a thousand, as the sources round. */
const roughly = (told: number | null, expected: number | null): void => {
  if (expected === null) expect(told).toBeNull();
  else expect(Math.abs((told ?? Infinity) - expected)).toBeLessThanOrEqual(Math.max(1e-6, expected * 2e-3));
};

describe('diet', () => {
  it.each(vectors.diet)('$name', async ({ fed, feed_g, expect: expected }) => {
    const { scrap_values } = await kitchen_reference('en');
    const told = diet_of(fed as readonly Fed[], scrap_values, feed_g as [number, number] | null);
    const { share, ...amounts } = expected;
    near(told, amounts, 2);
    near(told.share, share, 4);
  });
  it.each(vectors.lay)('$name', ({ eggs, hens, days, expect: expected }) => {
    near(hen_day_lay(eggs, hens, days), expected, 3);
  });
});

describe('heap', () => {
  it.each(vectors.heap)('$name', ({ loads, values, expect: expected, asks }) => {
    const told = balance_of(loads, values as unknown as HeapValues);
    roughly(told.kg, expected.kg);
    roughly(told.unknown_kg, expected.unknown_kg);
    roughly(told.c_to_n, expected.c_to_n);
    roughly(told.moisture_pct, expected.moisture_pct);
    roughly(told.litres, expected.litres);
    expect(asks_for(told)).toBe(asks);
  });
  it.each(vectors.to_add)('$name', ({ loads, values, material, expect: expected }) => {
    near(to_add_kg(loads, values as unknown as HeapValues, material), expected, 3);
  });
  it.each(vectors.hot)('$name', ({ warmths, turned, expect: expected }) => {
    expect(was_hot(warmths, turned)).toBe(expected);
  });
  it.each(vectors.usable)('$name', ({ last_added, hot, expect: expected }) => {
    expect(usable_from(last_added, hot)).toBe(expected);
  });
  it('is turned every two weeks', () => {
    expect(turn_on('2026-12-25')).toBe('2027-01-08');
  });
});
