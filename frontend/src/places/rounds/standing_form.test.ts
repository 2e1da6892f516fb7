import { describe, expect, test } from 'vitest';
import { chore_fields, filled } from './standing_form.ts';

describe('the form of a standing chore', () => {
  test('a new one says only what was set', () => {
    const form = { ...filled({}), name: ' Feed ', weekdays: ['3', '1'] as const, at: '07:30' };
    expect(chore_fields(form, {})).toEqual({ name: 'Feed', weekdays: [1, 3], at: '07:30', minutes: 10 });
  });
  test('what was set and is cleared now is told as nothing', () => {
    const before = { name: 'Feed', note: 'two scoops', needs: ['lifting'], from_month: 11, to_month: 3 };
    const form = { ...filled(before), note: '', needs: [], to_month: '' };
    expect(chore_fields(form, before)).toMatchObject({
      note: null,
      needs: [],
      from_month: null,
      to_month: null,
    });
  });
  test('a small child’s chore says from which age', () => {
    expect(chore_fields({ ...filled({ name: 'Eggs' }), by_children: true, least_age: 6 }, {})).toMatchObject({
      least_age: 6,
    });
    expect(filled({ least_age: 6 }).by_children).toBe(true);
  });
  test('opened and kept as it was, it says the same', () => {
    const before = {
      name: 'Shut in',
      weekdays: [1, 7],
      at: '16:30',
      minutes: 5,
      needs: ['ladder'],
      photo: 'a'.repeat(64),
    };
    expect(chore_fields(filled(before), before)).toEqual(before);
  });
});
