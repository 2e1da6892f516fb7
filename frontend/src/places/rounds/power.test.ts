import { describe, expect, test } from 'vitest';
import words from '../../reference/built/kitchen_words.en.json';
import { Cellar } from './made_up.ts';
import { beginOutage, HOLDS_HOURS, holdsUntil, hoursOut, inFreezers, outFor, readOutage } from './power.ts';

const now = new Date('2027-01-20T18:10:00.000Z');

describe('a power cut', () => {
  test('its hours are those of the table, 48 full and 24 half full', () => {
    // Ohio State University Extension HYG-5357 (48 h); FoodSafety.gov as given by a newspaper (24 h): kitchen_safety.csv
    const told = (words.kitchen_safety as Record<string, readonly string[]>)['power_cut_freezer'];
    expect(told?.[0]).toBe(`${HOLDS_HOURS.full} h; ${HOLDS_HOURS.half} h`);
  });
  test('the lower figure holds until somebody says it is full', () => {
    const begun = beginOutage(now);
    expect(holdsUntil(begun).toISOString()).toBe('2027-01-21T18:10:00.000Z');
    expect(holdsUntil({ ...begun, fill: 'full' }).toISOString()).toBe('2027-01-22T18:10:00.000Z');
  });
  test('out for four hours it went four hours ago', () => {
    const outage = outFor(beginOutage(now), 4, now);
    expect(outage.since).toBe('2027-01-20T14:10:00.000Z');
    expect(hoursOut(outage, now)).toBe(4);
  });
  test('a draft is read as it was kept, and one of another shape not at all', () => {
    const outage = { since: '2027-01-20T14:10:00.000Z', fill: 'full' as const };
    expect(readOutage({ ...outage })).toEqual(outage);
    for (const other of [undefined, null, 'out', [], { since: 'at noon' }, {}])
      expect(readOutage(other)).toBeUndefined();
  });
  test('the oldest of the freezer comes first, and nothing of another space', () => {
    const cellar = new Cellar();
    const put = (id: string, at: string, space: string) =>
      cellar.write('put_away', at, { crop: 'carrot', space, grams: 1000 }, { id });
    put('new', '2026-12-01T10:00', 'chest');
    put('old', '2026-10-01T10:00', 'chest');
    put('box', '2026-09-01T10:00', 'cellar');
    const lots = Object.values(cellar.whole('2027-01-20').lots);
    const kinds = (space: string) => (space === 'chest' ? 'freezer' : 'root_cellar');
    expect(inFreezers(lots, kinds).map(({ id }) => id)).toEqual(['old', 'new']);
  });
});
