import { expect, test } from 'vitest';
import { stepped, typedNumber, within } from './number';

const bounds = { min: 0, max: 30, step: 0.5 };

test('a step goes to the next mark, without binary dust', () => {
  expect(stepped(2, 1, bounds)).toBe(2.5);
  expect(stepped(0.3, 1, bounds)).toBe(0.5);
  expect(stepped(0.3, -1, bounds)).toBe(0);
  let n = 0;
  for (let i = 0; i < 30; i += 1) n = stepped(n, 1, { min: 0, max: 30, step: 0.1 });
  expect(n).toBe(3);
});

test('a step never leaves the bounds', () => {
  expect(stepped(30, 1, bounds)).toBe(30);
  expect(stepped(0, -1, bounds)).toBe(0);
  expect(within(99, bounds)).toBe(30);
});

test('a number is read as people type it', () => {
  expect(typedNumber('2,5')).toBe(2.5);
  expect(typedNumber(' 1 200 ')).toBe(1200);
  expect(typedNumber('−3')).toBe(-3);
  expect(typedNumber('.5')).toBe(0.5);
});

test('what is no number is not guessed at', () => {
  for (const text of ['', '-', 'abc', '1.2.3', '1e5', '0x10']) expect(typedNumber(text)).toBeUndefined();
});
