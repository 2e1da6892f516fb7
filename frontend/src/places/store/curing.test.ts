import { expect, test } from 'vitest';
import { curing_lots, curing_shape, days_on, ready_of } from './curing';

const lot = { curing: true, cures_until: '2026-09-26', put_away_day: '2026-09-05' };

test('onions of two to three weeks are ready between two days', () => {
  expect(ready_of(lot, { low: 14, high: 21 }, '2026-09-17')).toEqual({
    from: '2026-09-19',
    until: '2026-09-26',
    days: 12,
  });
});
test('a day set by hand stands alone', () => {
  expect(ready_of({ ...lot, cures_until: '2026-09-15' }, { low: 14, high: 21 }, '2026-09-06')?.from).toBe(
    '2026-09-15',
  );
});
test('what was packed cures no more', () => {
  expect(ready_of({ ...lot, curing: false }, { low: 14, high: 21 }, '2026-09-17')).toBeUndefined();
});
test('days go on over the turn of summer time and of the year', () => {
  expect(days_on('2026-10-20', 14)).toBe('2026-11-03');
  expect(days_on('2026-12-25', 10)).toBe('2027-01-04');
});

test('what cures stands by the day it may be ready; what is packed is not among it', () => {
  const at = (id: string, put_away_day: string, more: object = {}) => ({
    id,
    crop: 'onion',
    curing: true,
    cures_until: days_on(put_away_day, 21),
    put_away_day,
    ...more,
  });
  const lots = [
    at('late', '2026-09-12'),
    at('without a day', '2026-09-01', { cures_until: null }),
    at('packed', '2026-09-01', { curing: false }),
    at('early', '2026-09-05'),
  ];
  const rows = curing_lots(lots, () => ({ low: 14, high: 21 }), '2026-09-17');
  expect(rows.map(({ lot, ready }) => [lot.id, ready?.from])).toEqual([
    ['early', '2026-09-19'],
    ['late', '2026-09-26'],
    ['without a day', undefined],
  ]);
});

test('the days so far and the days it may be ready lie on one way, and never past its end', () => {
  const ready = { from: '2026-09-19', until: '2026-09-26', days: 7 };
  expect(curing_shape(ready, '2026-09-05')).toEqual({ done: 1 / 3, from: 2 / 3 });
  expect(curing_shape({ ...ready, days: 40 }, '2026-09-05').done).toBe(1);
  expect(curing_shape({ from: '2026-09-05', until: '2026-09-05', days: 0 }, '2026-09-05')).toEqual({
    done: 0,
    from: 0,
  });
});
