import { expect, test } from 'vitest';
import { part_for_seed, some_for_seed } from './seed.ts';

const seed = (pieces: number | null, grams: number | null) => ({ pieces, grams, treated: false });

test('seed in part is neither none nor all', () => {
  const shown = { pieces: 20, grams: 2000 };
  expect(part_for_seed({ seed: seed(6, 600), shown })).toBe(true);
  expect(part_for_seed({ seed: seed(20, 2000), shown })).toBe(false);
  expect(part_for_seed({ seed: seed(0, 0), shown })).toBe(false);
  expect(some_for_seed({ seed: seed(null, 600), shown })).toBe(true);
});
