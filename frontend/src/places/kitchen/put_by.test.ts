import { describe, expect, test } from 'vitest';
import { best_before, put_by_body, said_at, type Putting } from './put_by';

const putting: Putting = {
  lot: 'lot-1',
  grams: 2400.4,
  findings: ['sound'],
  method: 'freeze',
  label: 'Carrot, frozen',
  space: 'space-1',
  containers: 5,
  weighed: undefined,
  keeps_until: '2026-09-25',
};

describe('the entry', () => {
  test('takes from the lot and brings bags into the store, with a clock of their own', () => {
    expect(put_by_body(putting)).toEqual({
      from: [{ lot: 'lot-1', grams: 2400, measured: 'weighed', findings: ['sound'] }],
      method: 'freeze',
      crop: 'frozen',
      label: 'Carrot, frozen',
      space: 'space-1',
      pack: 'freezer_bag',
      pieces: 5,
      keeps_until: '2026-09-25',
    });
  });
  test('says what was weighed again, and no clock where the tables have none', () => {
    const body = put_by_body({ ...putting, method: 'dry', weighed: 199.6, keeps_until: undefined });
    expect(body).toMatchObject({ crop: 'dried', pack: 'jar', grams: 200 });
    expect(body).not.toHaveProperty('keeps_until');
  });
});

describe('the clock', () => {
  test('runs from today by months of 30.4 days', () => {
    expect(best_before('2026-11-25', 12)).toBe('2027-11-24');
  });
  test('is silent where no table says how long', () => {
    expect(best_before('2026-11-25', undefined)).toBeUndefined();
  });
});

// What is low in acid (pH above 4.6) needs a pressure canner and a tested recipe: National Center for Home Food
// Preservation, "For safety's sake" (row canning_low_acid of fixtures/reference/kitchen_safety.csv).
describe('what is said where the way is chosen', () => {
  test('low in acid in a jar: pressure and a tested recipe come first', () => {
    expect(said_at('jar', 'carrot', undefined)[0]).toBe('kitchen_safety:canning_low_acid');
    expect(said_at('jar', 'tomato', 'acidified')[0]).toBe('kitchen_safety:canning_low_acid');
  });
  test('an acid fruit is not called low in acid, but an apple tells of the poison in juice', () => {
    const said = said_at('jar', 'apple', 'acid');
    expect(said).not.toContain('kitchen_safety:canning_low_acid');
    expect(said[0]).toBe('kitchen_safety:patulin_juice');
  });
  test('garlic in oil is spoken of at once, in the freezer and in the jar', () => {
    for (const method of ['freeze', 'jar'] as const)
      expect(said_at(method, 'garlic', undefined).slice(0, 2)).toContain('kitchen_safety:garlic_in_oil');
  });
});
