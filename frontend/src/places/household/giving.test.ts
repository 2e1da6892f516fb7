import { describe, expect, test } from 'vitest';
import { away_backwards, giving_fields, giving_of } from './giving.ts';

describe('what somebody can give', () => {
  test('nothing said stays unsaid', () => {
    expect(giving_fields(giving_of({}), {})).toEqual({});
  });
  test('opened and kept as it was, it says the same', () => {
    const before = {
      minutes_a_week: 90,
      weekdays: [6, 7],
      born: 2014,
      cannot: ['ladder'],
      away_from: '2026-12-01',
      away_until: '2026-12-08',
      picture: 'pear',
    };
    expect(giving_fields(giving_of(before), before)).toEqual(before);
  });
  test('cleared, it is told as nothing', () => {
    const before = { born: 2014, cannot: ['ladder'], away_from: '2026-12-01' };
    const giving = { ...giving_of(before), born: '', cannot: [], away_from: '' };
    expect(giving_fields(giving, before)).toEqual({ born: null, cannot: [], away_from: null });
  });
  test('a year that is none changes nothing', () => {
    expect(giving_fields({ ...giving_of({ born: 2014 }), born: '14' }, { born: 2014 })).toEqual({
      born: 2014,
    });
  });
  test('days away that end before they begin are told', () => {
    const giving = giving_of({ away_from: '2026-12-08', away_until: '2026-12-01' });
    expect(away_backwards(giving)).toBe(true);
    expect(away_backwards({ ...giving, away_until: '' })).toBe(false);
  });
});
