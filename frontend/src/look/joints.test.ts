import { expect, test } from 'vitest';
import { breakable } from './joints';

test('a long compound may be broken at its joint', () => {
  expect(breakable('Trockenbohnen')).toBe('Trocken\u00adbohnen');
  expect(breakable('Knollensellerie, box 2')).toBe('Knollen\u00adsellerie, box 2');
});

test('other words stay whole', () => {
  expect(breakable('Winter squash')).toBe('Winter squash');
  expect(breakable('Möhre')).toBe('Möhre');
});
