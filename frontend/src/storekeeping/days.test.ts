// Days in the household's zone, held against Intl asked one by one. The twin is tests/storekeeping/test_days.py.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { day_number, day_text, moment_ms, winter_of, Zone, zone_named } from './days.ts';

const ZONES = [
  'Europe/Vienna',
  'America/New_York',
  'America/St_Johns',
  'Australia/Lord_Howe',
  'Pacific/Auckland',
  'Africa/Casablanca',
  'Asia/Kathmandu',
  'UTC',
];
const zones = fc.constantFrom(...ZONES);
const moments = fc.integer({
  min: moment_ms('2015-01-01T00:00:00Z'),
  max: moment_ms('2037-01-01T00:00:00Z'),
});

/** As a Swede writes it: `2026-11-25 10:24`. */
function wall(zone: string, when_ms: number): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' }).format(
    when_ms,
  );
}

describe('a zone', () => {
  it('remembers the days Intl tells', () => {
    fc.assert(
      fc.property(zones, moments, (zone, when_ms) => {
        expect(day_text(zone_named(zone).day_of(when_ms))).toBe(wall(zone, when_ms).slice(0, 10));
      }),
    );
  });

  it('has noon at noon', () => {
    fc.assert(
      fc.property(zones, fc.integer({ min: 16_436, max: 24_470 }), (zone, day) => {
        expect(wall(zone, zone_named(zone).noon_of(day))).toBe(`${day_text(day)} 12:00`);
      }),
    );
  });

  // Directive 2000/84/EC, articles 2 and 3, from memory; the dates: the calendar.
  it.each([
    ['2026-10-25T01:00:00Z', 2, 1],
    ['2027-03-28T01:00:00Z', 1, 2],
    ['2027-10-31T01:00:00Z', 2, 1],
  ])('changes its clocks when the law says: %s', (turn, before_h, after_h) => {
    const zone = new Zone('Europe/Vienna');
    expect(zone.offset_ms(moment_ms(turn) - 1)).toBe(before_h * 3_600_000);
    expect(zone.offset_ms(moment_ms(turn))).toBe(after_h * 3_600_000);
  });

  it('nobody knows is refused loudly', () => {
    expect(() => new Zone('Middle/Earth')).toThrow(RangeError);
  });
});

it('counts days from 1970', () => {
  expect(day_number('1970-01-01')).toBe(0);
  expect(day_text(-1)).toBe('1969-12-31');
  expect(() => day_number('yesterday')).toThrow(RangeError);
});

it.each([
  ['2026-07-31', 2025, 2026],
  ['2026-08-01', 2026, 2026],
  ['2027-01-31', 2026, 2026],
  ['2027-02-01', 2026, 2027],
])('begins a winter in August, in the south in February: %s', (day, north, south) => {
  expect(winter_of(day_number(day), 'north')).toBe(north);
  expect(winter_of(day_number(day), 'south')).toBe(south);
});
