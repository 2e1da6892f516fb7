// Vectors written by hand from docs/fold.md F17; the twin is tests/storekeeping/test_due.py.
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { days_late, due_of_lot, due_of_space, interval_of, type Hemisphere, type Watched } from './due.ts';
import type { LookingOver, Rules } from './rules.ts';

interface DueCase {
  readonly name: string;
  readonly interval: LookingOver | null;
  readonly lot: Watched;
  readonly hemisphere: Hemisphere;
  readonly expect: string | null;
}

const read = <T>(path: string): T => JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8')) as T;
const { cases } = read<{ cases: DueCase[] }>('../../../fixtures/vectors/due.json');
const rules = read<Rules>('../reference/built/rules.json');

describe('a lot', () => {
  it.each(cases)('$name', ({ interval, lot, hemisphere, expect: wanted }) => {
    expect(due_of_lot(interval, lot, hemisphere)).toBe(wanted);
  });

  it('is due after its look and within the longer interval', () => {
    const day = fc
      .date({ min: new Date('2024-01-01'), max: new Date('2030-01-01'), noInvalidDate: true })
      .map((date) => date.toISOString().slice(0, 10));
    fc.assert(
      fc.property(
        day,
        day,
        fc.constantFrom(...Object.keys(rules.looking_over)),
        (put_away_on, last_look, crop) => {
          const interval = interval_of(rules, crop);
          if (!interval) throw new Error(`no interval for ${crop}`);
          const waited = days_late(last_look, due_of_lot(interval, { put_away_on, last_look }) ?? last_look);
          expect(waited).toBeGreaterThanOrEqual(Math.min(interval.every_days, interval.every_days_late));
          expect(waited).toBeLessThanOrEqual(Math.max(interval.every_days, interval.every_days_late));
        },
      ),
    );
  });
});

describe('a space', () => {
  it('is due with its first lot', () =>
    expect(due_of_space(['2026-12-02', null, '2026-11-30'])).toBe('2026-11-30'));
  it('with nothing in it is not due', () => expect(due_of_space([null])).toBeNull());
});

describe('days late', () => {
  it.each([
    ['2026-11-25', '2026-11-25', 0],
    ['2026-11-25', '2026-11-24', 0],
    ['2026-11-25', '2026-11-27', 2],
    ['2028-02-28', '2028-03-01', 2],
    [null, '2026-11-25', 0],
  ])('due %s, today %s: %i', (due, today, late) => expect(days_late(due, today)).toBe(late));
});
