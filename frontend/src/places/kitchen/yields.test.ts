import { beforeAll, describe, expect, test } from 'vitest';
import {
  kitchen_reference,
  reference,
  source_of,
  type KitchenReference,
  type Reference,
} from '../../reference/index.ts';
import { said_at } from './put_by.ts';
import { containers, METHODS, way_told, type Method } from './yields.ts';

// Figures are of the pages that fixtures/reference/preserve_yields.csv names, row by row, with how each was seen.
let tables: Reference;
let kitchen: KitchenReference;
beforeAll(async () => {
  tables = await reference('en');
  kitchen = await kitchen_reference('en');
});
const told = (crop: string, method: Method) => way_told(kitchen.preserve_yields, tables.rules, crop, method);

describe('what the table tells of a way', () => {
  // Michigan State University Extension 01600171: small whole 5 minutes, seen.
  test('carrots are blanched before they are frozen', () => {
    expect(told('carrot', 'freeze').blanch?.value).toBe('5');
  });
  // Michigan State University Extension 01600169 (USDA): 17.5 lb fill 7 quarts, seen; 17.5 lb / 7 = 1.13 kg.
  test('three kilograms of carrots fill three quarts', () => {
    const way = told('carrot', 'jar');
    expect((17.5 * 0.45359) / 7).toBeCloseTo(way.fresh_kg?.value[0] ?? 0, 2);
    expect(containers(3000, way)).toBe(3);
    expect(way.unit).toMatch(/quart/);
  });
  // Michigan State University Extension 01600078 (USDA): 25 lb of cabbage are about 9 quarts of kraut, seen.
  test('25 lb of cabbage make nine quarts of kraut', () => {
    expect(containers(25 * 453.59, told('cabbage', 'ferment'))).toBe(9);
  });
  // The Old Farmer's Almanac 10 to 12 months, seen; the shorter holds.
  test('of a range of months the shortest holds', () => {
    expect(told('carrot', 'freeze').months?.value).toBe(10);
  });
  // Virginia Cooperative Extension 348-597, from memory: 15 lb dry to 1.25 lb.
  test('of two dry yields the lower holds', () => {
    expect(told('carrot', 'dry').dries_to?.value).toBeCloseTo(1.25 / 15, 3);
  });
  test('a crop without a row goes by any vegetable, and has no yield of its own', () => {
    const way = told('parsnip', 'freeze');
    expect(way.fresh_kg).toBeUndefined();
    expect(containers(3000, way)).toBeUndefined();
    expect(way.months).toBeDefined();
  });
  test('a handful still fills one', () => {
    expect(containers(50, told('carrot', 'jar'))).toBe(1);
  });
});

test('every figure and every caution, of every crop and way, opens its source', async () => {
  const rows = tables.crops.flatMap((crop) =>
    METHODS.flatMap((method) => {
      const { fresh_kg, dries_to, blanch, months } = told(crop, method);
      const figures = [fresh_kg, dries_to, blanch, months].flatMap((one) => (one ? [one.row] : []));
      return [...figures, ...said_at(method, crop, kitchen.jarred[crop])];
    }),
  );
  const distinct = [...new Set(rows)];
  expect(distinct.length).toBeGreaterThan(40);
  for (const row of distinct) expect(await source_of(row), row).not.toBeNull();
});

test('every caution has a sentence', () => {
  for (const crop of tables.crops)
    for (const method of METHODS)
      for (const row of said_at(method, crop, kitchen.jarred[crop]))
        expect(tables.sentence(row), row).not.toBe('');
});
