import { expect, test } from 'vitest';
import type { Sheet } from '../../ledger';
import { weeks_of } from './weeks';

const plan = (crop: string, content: object): Sheet =>
  ({
    key: `plan/${crop}`,
    kind: 'plan',
    as_of: 5,
    made_at: '2026-11-25T03:00:00Z',
    inputs: {},
    content: { crop, day: '2026-11-25', saved: [100, 500, 900], ...content },
  }) as unknown as Sheet;
const week = (day: string, lots: Readonly<Record<string, number>>, weeks = 1) => ({
  day,
  weeks,
  lots: Object.entries(lots).map(([lot, grams]) => ({ lot, grams })),
});
const CARROT = plan('carrot', {
  weeks: [week('2026-11-25', { a: 1000, b: 500 }), week('2026-12-02', { b: 1500 })],
  surplus: [{ lot: 'b', grams: 3000, day: '2026-12-09' }],
  can_be_put_by: true,
});
const BEET = plan('beet', {
  weeks: [week('2026-11-25', {}), week('2026-12-02', {}), week('2027-01-06', { c: 800 }, 4)],
  hold: [{ lot: 'c', until: '2027-01-06' }],
  surplus: [],
});
const all_here = () => true;

test('the crops of a week stand together, most of it first', () => {
  const onion = plan('onion', { weeks: [week('2026-11-25', { d: 2000 })] });
  const told = weeks_of([CARROT, onion], all_here);
  expect(told?.weeks[0]).toEqual({
    day: '2026-11-25',
    weeks: 1,
    eaten: [
      { crop: 'onion', grams: 2000 },
      { crop: 'carrot', grams: 1500 },
    ],
    grams: 3500,
  });
  expect(told?.saved).toEqual([200, 1000, 1800]);
});

test('a crop nothing is eaten of for a month is held back, with the day it is begun', () => {
  const told = weeks_of([CARROT, BEET], all_here);
  expect(told?.held).toEqual([{ crop: 'beet', until: '2027-01-06' }]);
  expect(told?.weeks.at(-1)).toMatchObject({ day: '2027-01-06', weeks: 4, grams: 800 });
});

test('little of a crop waits until it makes a dish, and goes with the weeks after at last', () => {
  const leek = plan('leek', {
    weeks: [
      week('2026-11-25', { e: 600 }),
      week('2026-12-02', { e: 600 }),
      week('2026-12-09', { e: 600 }),
      week('2026-12-30', { e: 2400 }, 4),
    ],
  });
  expect(weeks_of([leek], all_here)?.weeks.map(({ day, grams }) => [day, grams])).toEqual([
    ['2026-12-02', 1200],
    ['2026-12-30', 3000],
  ]);
});

test('what nobody will eat is told with its day', () => {
  expect(weeks_of([CARROT, BEET], all_here)?.over).toEqual([
    { lot: 'b', crop: 'carrot', grams: 3000, day: '2026-12-09', can_be_put_by: true },
  ]);
});

test('a lot that is gone since is eaten no more', () => {
  const told = weeks_of([CARROT], (lot) => lot !== 'b');
  expect(told?.weeks).toEqual([
    { day: '2026-11-25', weeks: 1, eaten: [{ crop: 'carrot', grams: 1000 }], grams: 1000 },
  ]);
  expect(told?.over).toEqual([]);
});

test('plans of an older day and sheets of another shape are left out', () => {
  const old = plan('leek', { day: '2026-11-20', weeks: [week('2026-11-20', { e: 900 })] });
  expect(weeks_of([old, CARROT], all_here)?.day).toBe('2026-11-25');
  expect(weeks_of([plan('leek', { weeks: 'many' })], all_here)).toBeUndefined();
  expect(weeks_of([], all_here)).toBeUndefined();
});
