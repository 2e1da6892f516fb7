import { expect, test, vi } from 'vitest';
import { CatchingUp } from './catching_up';

test('the first page is read at once, those that come during the rest together', async () => {
  vi.useFakeTimers();
  const read: number[][] = [];
  const slow = (rows: readonly number[]) =>
    new Promise<void>((done) => {
      read.push([...rows]);
      setTimeout(done, 100);
    });
  const at = new CatchingUp(slow);
  const all = at.add([1, 2]);
  expect(read).toEqual([[1, 2]]);
  await vi.advanceTimersByTimeAsync(50);
  void at.add([3]);
  await vi.advanceTimersByTimeAsync(200);
  void at.add([4, 3]);
  expect(read).toEqual([[1, 2]]);
  await vi.advanceTimersByTimeAsync(750);
  expect(read).toEqual([
    [1, 2],
    [3, 4],
  ]);
  await vi.advanceTimersByTimeAsync(1200);
  await all;
  void at.add([5]);
  expect(read).toHaveLength(3);
  vi.useRealTimers();
});
