import { describe, expect, test } from 'vitest';
import { FIRST, label_size, placed, too_small, type SheetKind } from './label_sheet';

const small: SheetKind = { ...FIRST, columns: 3, rows: 8, top: 4, side: 0 };

describe('labels on a sheet', () => {
  test('two by four on A4 are 95 by 69 mm', () => {
    expect(label_size(FIRST)).toMatchObject({ width: 95, height: 69.25, line: true });
  });
  test('lie in rows, left to right, and never past the paper', () => {
    const [first, second] = placed(
      Array.from({ length: 25 }, (_, n) => n),
      small,
    );
    expect(first).toHaveLength(24);
    expect(second).toMatchObject([{ what: 24, left: 0, top: 4 }]);
    const { width, height } = label_size(small);
    expect(first?.[4]).toEqual({ what: 4, left: 70, top: 4 + height });
    for (const { left, top } of first ?? []) {
      expect(left + width).toBeLessThanOrEqual(210 + 1e-9);
      expect(top + height).toBeLessThanOrEqual(293 + 1e-9);
    }
  });
  test('a sheet that was begun goes on behind what is used up', () => {
    const [first, second] = placed(['a', 'b', 'c'], { ...FIRST, used: 6 });
    expect(first).toMatchObject([
      { what: 'a', left: 10 },
      { what: 'b', left: 105 },
    ]);
    expect(second).toMatchObject([{ what: 'c', left: 10, top: 10 }]);
  });
  test('none is printed on no sheet', () => {
    expect(placed([], FIRST)).toEqual([]);
  });
  test('a label too small for its code is told', () => {
    expect(too_small(small)).toBe(false);
    expect(too_small({ ...FIRST, rows: 20 })).toBe(true);
    expect(too_small({ ...FIRST, columns: 8 })).toBe(true);
  });
});
