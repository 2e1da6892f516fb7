import { beforeAll, expect, test } from 'vitest';
import { kitchen_reference, type KitchenReference } from '../../reference';
import { feed_of, group_diet, limits_of } from './diets';

let tables: KitchenReference;
beforeAll(async () => {
  tables = await kitchen_reference('en');
});

test('of two limits the lower one stands first', () => {
  // fixtures/reference/animals.csv: 5 % of the diet (a page that was read), 10 % of dry matter (from memory)
  expect(limits_of('laying_hen', tables).map(({ share }) => share)).toEqual([0.05, 0.1]);
  expect(limits_of('llama', tables)).toEqual([]);
});

test('the household’s own feed stands before the tables’', () => {
  expect(feed_of('laying_hen', 8, 920, tables)).toEqual({ grams: [920, 920], own: true, rows: [] });
  const told = feed_of('laying_hen', 8, undefined, tables);
  expect(told?.own).toBe(false);
  // 110 to 130 g a hen of medium weight, from memory
  expect(told?.grams).toEqual([880, 1040]);
  expect(feed_of('laying_hen', undefined, undefined, tables)).toBeNull();
});

test('a kilogram of cabbage trimmings is about a ninth of what six hens eat', () => {
  // fixtures/reference/feed_values.csv, worked example "scrap share on dry matter": 11.6 %
  const rows = [
    {
      way: 'animals',
      animals: 'hens',
      crop: 'cabbage',
      part: 'outer leaves',
      grams: 1000,
      entry: 'a',
    } as const,
    { way: 'animals', animals: 'pigs', crop: 'cabbage', part: null, grams: 9000, entry: 'b' } as const,
  ];
  const feed = { grams: [660, 660] as const, own: true, rows: [] };
  const asked = { crop: (crop: string) => crop, measured: () => undefined };
  const { share, fresh_g } = group_diet(rows, 'hens', 1, feed, tables.scrap_values, asked);
  expect(fresh_g).toBe(1000);
  expect(share?.low).toBeCloseTo(0.116, 3);
  expect(share?.mid).toBeCloseTo(0.117, 3);
});
