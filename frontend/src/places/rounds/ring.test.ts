import { describe, expect, test } from 'vitest';
import { drawn, nudged, ringAt } from './ring.ts';

const upright = { width: 1200, height: 1600 };
const box = { width: 390, height: 292.5 };

describe('a ring on a picture', () => {
  test('is put where it was touched, on a picture that is shown cropped', () => {
    const ring = ringAt({ x: 100, y: 200 }, upright, box);
    const shown = drawn(ring, upright, box);
    expect(shown.left + shown.size / 2).toBeCloseTo(100, 0);
    expect(shown.top + shown.size / 2).toBeCloseTo(200, 0);
  });
  test('is told in shares of the longer side, in thousandths', () => {
    // Whole picture shown: 390 px for 1200, so 520 px for the longer side.
    expect(ringAt({ x: 195, y: 260 }, upright, { width: 390, height: 520 })).toEqual({
      x: 0.375,
      y: 0.5,
      r: 0.14,
    });
  });
  test('never leaves the picture', () => {
    expect(ringAt({ x: -50, y: 9000 }, upright, box)).toMatchObject({ x: 0, y: 1 });
  });
  test('begins in the middle when moved by an arrow', () => {
    expect(nudged(undefined, 1, 0, upright)).toEqual({ x: 0.405, y: 0.5, r: 0.14 });
    expect(nudged({ x: 0.99, y: 0.5, r: 0.2 }, 1, -1, upright)).toEqual({ x: 1, y: 0.47, r: 0.2 });
  });
});
