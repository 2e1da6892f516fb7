import { expect, test } from 'vitest';
import type { Fact } from '../../storekeeping/state';
import { eggs_by_day, eggs_of } from './eggs';

const lay = (day: string, eggs: number, more: object = {}): Fact => ({
  id: `${day} ${eggs}`,
  kind: 'lay',
  person: 'pip',
  when_ms: 0,
  day,
  body: { animals: 'hens', day, eggs, ...more },
  flags: [],
});

test('a day nobody counted is no day without eggs', () => {
  const days = eggs_by_day([lay('2026-11-24', 0)], 'hens', '2026-11-23', '2026-11-24');
  expect(days.map(({ eggs }) => eggs)).toEqual([undefined, 0]);
});

test('two counts of one day add up, and another group’s are left out', () => {
  const facts = [
    lay('2026-11-24', 3),
    lay('2026-11-24', 2, { broken: 1 }),
    lay('2026-11-24', 9, { animals: 'ducks' }),
  ];
  expect(eggs_by_day(facts, 'hens', '2026-11-24', '2026-11-24')[0]).toMatchObject({ eggs: 5, broken: 1 });
});

test('hen-day lay is eggs over the hens alive on each day counted', () => {
  // fixtures/reference/feed_values.csv, worked example "hen-day lay, changing flock", scaled down: 100 x eggs / hen-days
  const facts = [lay('2026-11-23', 6, { hens: 8 }), lay('2026-11-24', 5, { hens: 10 })];
  const days = eggs_by_day(facts, 'hens', '2026-11-22', '2026-11-24');
  expect(eggs_of(days, 4)).toEqual({ eggs: 11, broken: 0, days: 2, lay: 11 / 18 });
});

test('without hens there is no hen-day lay', () => {
  expect(
    eggs_of(eggs_by_day([lay('2026-11-24', 3)], 'hens', '2026-11-24', '2026-11-24'), undefined).lay,
  ).toBeNull();
});
