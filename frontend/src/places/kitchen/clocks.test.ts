import { describe, expect, test } from 'vitest';
import kitchen from '../../reference/built/kitchen_rows.json';
import type { KitchenReference } from '../../reference';
import { by_end, clock_of, how_it_lies, laid_before } from './clocks';

// Times are the tables' (fixtures/reference/storage.csv, each row with its source): nuts shelled at room warmth 30 days,
// common practice; nuts frozen two years and in the fridge one, read in a course page on nuts; raw eggs in the fridge three
// weeks, the shorter end of US National Institute on Aging's three to five.
const clocks = kitchen.clocks as unknown as KitchenReference['clocks'];
const lot = (pack: string | null, keeps_until: string | null = null) => ({
  id: 'a',
  put_away_day: '2026-11-01',
  pack,
  keeps_until,
});
const ends = (crop: string, pack: string | null, space: string) =>
  clock_of(clocks, lot(pack), crop, space)?.ends;

describe('how a thing lies', () => {
  test.each([
    ['walnut', 'in_shell', 'loft', 'in_shell_room'],
    ['walnut', 'net', 'root_cellar', 'in_shell_cool'],
    ['hazelnut', 'jar', 'pantry', 'shelled_room'],
    ['hazelnut', 'jar', 'cold_room', 'shelled_fridge'],
    ['almond', 'freezer_bag', 'freezer', 'frozen'],
    ['egg', 'egg_tray', 'pantry', 'room'],
    ['egg', 'egg_tray', 'cold_room', 'cool_moist'],
    ['egg', 'crock', 'root_cellar', 'lime_water'],
    ['dried', 'jar', 'spare_room', 'room'],
  ])('%s in %s, %s: %s', (crop, pack, space, lies) => {
    expect(how_it_lies(crop, pack, space)).toBe(lies);
  });
  test('where nobody said how nuts lie, the shorter time holds', () => {
    expect(how_it_lies('walnut', null, '')).toBe('shelled_room');
    expect(how_it_lies('walnut', 'bag', 'root_cellar')).toBe('shelled_room');
  });
  test('every condition it may name has its clock in the tables', () => {
    for (const crop of [
      'egg',
      'walnut',
      'hazelnut',
      'almond',
      'chestnut',
      'jar',
      'ferment',
      'frozen',
      'dried',
    ])
      for (const pack of ['in_shell', 'jar', 'crock', null])
        for (const space of ['freezer', 'cold_room', 'root_cellar', 'pantry', 'spare_room', ''])
          expect(clock_of(clocks, lot(pack), crop, space)?.ends, `${crop} ${pack} ${space}`).toMatch(
            /^20\d\d-/,
          );
  });
});

describe('the clock', () => {
  test('runs from the day it was put away', () => {
    expect(ends('walnut', 'jar', 'pantry')).toBe('2026-12-01');
    expect(ends('egg', 'egg_tray', 'cold_room')).toBe('2026-11-22');
    expect(ends('egg', 'egg_tray', 'pantry')).toBe('2026-11-15');
    expect(ends('walnut', 'freezer_bag', 'freezer')).toBe('2028-10-31');
  });
  test('of what was put by is the one it was given, by the row it was taken from', () => {
    expect(
      clock_of(clocks, lot('jar', '2027-05-01'), 'jar', 'pantry', 'preserve_yields:jar/can/quality'),
    ).toEqual({
      lot: 'a',
      ends: '2027-05-01',
      lies: undefined,
      days: undefined,
      rows: ['preserve_yields:jar/can/quality'],
    });
  });
  test('is none for a crop that shows its age', () => {
    expect(clock_of(clocks, lot('sand'), 'carrot', 'root_cellar')).toBeUndefined();
  });
  test('the nearest end goes first', () => {
    const clock = (id: string, day: string) => ({ lot: id, ends: day, lies: 'room', days: 1, rows: [] });
    const sorted = [clock('b', '2026-12-03'), clock('c', '2026-11-30'), clock('a', '2026-12-03')].sort(
      by_end,
    );
    expect(sorted.map((one) => one.lot)).toEqual(['c', 'a', 'b']);
  });
});

test('by lay day: the last day that is past, in a room sooner than in the cold', () => {
  const told = laid_before(clocks, '2026-11-25');
  expect(told.map(({ lies, days, day }) => [lies, days, day])).toEqual([
    ['room', 14, '2026-11-10'],
    ['fridge', 21, '2026-11-03'],
  ]);
  expect(told.every(({ row }) => row.startsWith('storage:egg/'))).toBe(true);
});
