import { describe, expect, test } from 'vitest';
import { hasDamp, lastAir, nearFrost, oddIn, readCount, readingBody, startOf, warmFreezer } from './air.ts';
import { Cellar } from './made_up.ts';

function read() {
  const cellar = new Cellar();
  cellar.write('reading', '2026-01-04T17:00', { space: 's', temp_c: 2.4, rh_pct: 93, low_c: 1, high_c: 4 });
  cellar.write('reading', '2026-01-12T17:00', { space: 's', temp_c: 2.6 });
  cellar.write('reading', '2026-01-13T17:00', { space: 'loft', temp_c: 9 });
  return lastAir(cellar.whole('2026-01-20').facts, 's');
}

describe('the dials', () => {
  test('begin at what each showed last, and at when the marks were set back', () => {
    expect(read()).toEqual({
      values: { temp_c: 2.6, rh_pct: 93, low_c: 1, high_c: 4 },
      day: '2026-01-12',
      since: '2026-01-04',
    });
  });
  test('never read, they say so', () => {
    expect(lastAir([], 's')).toEqual({ values: {} });
  });
  test('what nobody touched is not written; nothing touched is no reading', () => {
    expect(readingBody('s', 'r', {}, read())).toBeUndefined();
    expect(readingBody('s', 'r', { temp_c: 2.5 }, read())).toEqual({ space: 's', round: 'r', temp_c: 2.5 });
    expect(readCount({ temp_c: 2.5, low_c: 0, asked: true })).toBe(2);
  });
  test('the marks say since when they stood', () => {
    expect(readingBody('s', 'r', { low_c: 0.5 }, read())).toEqual({
      space: 's',
      round: 'r',
      low_c: 0.5,
      since: '2026-01-04',
    });
    expect(readingBody('s', 'r', { low_c: 0.5 }, { values: {} })).toEqual({
      space: 's',
      round: 'r',
      low_c: 0.5,
    });
  });
});

describe('an odd reading', () => {
  test('coldest above warmest, and warmth outside them', () => {
    expect(oddIn({ low_c: 5, high_c: 4 }, read())).toEqual({ odd: 'low_above_high' });
    expect(oddIn({ temp_c: 0, low_c: 1 }, read())).toEqual({ odd: 'outside_marks' });
    expect(oddIn({ temp_c: 5, high_c: 4 }, read())).toEqual({ odd: 'outside_marks' });
  });
  test('far from last time names the dial and what it was', () => {
    expect(oddIn({ temp_c: 12 }, read())).toEqual({ odd: 'far_off', dial: 'temp_c', was: 2.6 });
    expect(oddIn({ temp_c: 4, rh_pct: 88 }, read())).toBeUndefined();
  });
  test('near frost is told from the coldest of what was read', () => {
    expect(nearFrost({ temp_c: 2.5, low_c: 0.5 }, 'root_cellar')).toBe(0.5);
    expect(nearFrost({ temp_c: 2.5 }, 'root_cellar')).toBeUndefined();
    expect(nearFrost({}, 'root_cellar')).toBeUndefined();
  });
  test('a freezer has no damp and no frost to fear; warm, it is looked through', () => {
    expect(hasDamp('freezer')).toBe(false);
    expect(startOf('temp_c', 'freezer')).toBe(-18);
    expect(startOf('temp_c', 'loft')).toBe(4);
    expect(nearFrost({ temp_c: -18 }, 'freezer')).toBeUndefined();
    expect(warmFreezer({ temp_c: -17, high_c: -8 }, 'freezer')).toBe(-8);
    expect(warmFreezer({ temp_c: -17 }, 'freezer')).toBeUndefined();
    expect(warmFreezer({ temp_c: 4 }, 'loft')).toBeUndefined();
  });
});
