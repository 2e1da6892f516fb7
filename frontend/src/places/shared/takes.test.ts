import { expect, test } from 'vitest';
import { commonest } from './takes';

test('the commonest amount is rounded as hands weigh', () => {
  expect(commonest([1980, 2040, 2000, 500], 250)).toBe(2000);
});
test('of two as common the larger is offered', () => {
  expect(commonest([1, 2], 0.5)).toBe(2);
});
test('before the first take there is none', () => {
  expect(commonest([], 250)).toBeUndefined();
});
