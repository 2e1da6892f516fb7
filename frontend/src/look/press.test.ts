import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import {
  BOUNCE_MS,
  FAST_FROM,
  Held,
  HOLD_FAST_MS,
  HOLD_FIRST_MS,
  HOLD_NEXT_MS,
  holdPause,
  once,
} from './press';

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());
const clock = () => Date.now();

test('a second touch within 350 ms is a bounce, a later one is meant', () => {
  const act = vi.fn();
  const press = once(act, clock);
  press();
  vi.advanceTimersByTime(BOUNCE_MS - 1);
  press();
  expect(act).toHaveBeenCalledTimes(1);
  vi.advanceTimersByTime(1);
  press();
  expect(act).toHaveBeenCalledTimes(2);
});

test('a press while the act is still going on is dropped, and the next after it is meant', async () => {
  let settle: () => void = () => undefined;
  const act = vi.fn(() => new Promise<void>((done) => (settle = done)));
  const press = once(act, clock);
  press();
  await vi.advanceTimersByTimeAsync(10 * BOUNCE_MS);
  press();
  expect(act).toHaveBeenCalledTimes(1);
  settle();
  await vi.advanceTimersByTimeAsync(0);
  press();
  expect(act).toHaveBeenCalledTimes(2);
});

test('a short touch steps once, when it is let go', () => {
  const step = vi.fn();
  const held = new Held(step, clock);
  held.down();
  vi.advanceTimersByTime(HOLD_FIRST_MS - 1);
  expect(step).not.toHaveBeenCalled();
  held.up();
  expect(step).toHaveBeenCalledTimes(1);
  vi.advanceTimersByTime(5000);
  expect(step).toHaveBeenCalledTimes(1);
});

test('held it repeats after 420 ms, each 110 ms, and runs from the eighth', () => {
  const step = vi.fn();
  const held = new Held(step, clock);
  held.down();
  vi.advanceTimersByTime(HOLD_FIRST_MS);
  expect(step).toHaveBeenCalledTimes(1);
  vi.advanceTimersByTime(HOLD_NEXT_MS * 6);
  expect(step).toHaveBeenCalledTimes(7);
  vi.advanceTimersByTime(HOLD_FAST_MS * 10);
  expect(step).toHaveBeenCalledTimes(17);
  held.up();
  expect(step).toHaveBeenCalledTimes(17);
  expect(holdPause(FAST_FROM)).toBe(HOLD_FAST_MS);
});

test('a finger that slides off does nothing more', () => {
  const step = vi.fn();
  const held = new Held(step, clock);
  held.down();
  held.stop();
  held.up();
  vi.advanceTimersByTime(5000);
  expect(step).not.toHaveBeenCalled();
});

test('a bounce on a stepper is ignored too', () => {
  const step = vi.fn();
  const held = new Held(step, clock);
  held.down();
  held.up();
  vi.advanceTimersByTime(100);
  held.down();
  held.up();
  expect(step).toHaveBeenCalledTimes(1);
});
