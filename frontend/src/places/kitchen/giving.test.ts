import { describe, expect, test } from 'vitest';
import built from '../../reference/built/rules.json';
import kitchen from '../../reference/built/kitchen_rows.json';
import type { Rules } from '../../storekeeping/rules';
import { given_body, may_give, type Giving } from './giving';

// Stricter than at one's own table: common practice, no source. Low acid is above pH 4.6 (National Center for Home Food
// Preservation, the row canning_low_acid); which crops are acid stands in fixtures/reference/crops.csv, from memory.
const rules = built as unknown as Rules;
const jarred = kitchen.jarred as Giving['jarred'];

const lot = (more: Partial<Giving['lot']> = {}): Giving['lot'] => ({
  standing: [],
  suspects: [],
  keeps_until: null,
  seed: { pieces: null, grams: null, treated: false },
  ...more,
});
const asked = (crop: string, findings: readonly string[], more: Partial<Giving> = {}) =>
  may_give(rules, {
    lot: lot(),
    question: { crop, findings },
    trimmed_for: [],
    jar_of: null,
    jarred,
    today: '2026-11-25',
    ...more,
  });
const standing = (finding: string) => [
  { finding, entry: 'e', pieces: 1, looked: 20, share: 0.05, suspect: false },
];

describe('what may be given away', () => {
  test('sound and worn food, by the rows that say so', () => {
    expect(asked('carrot', ['sound'])).toEqual({ allowed: true, rows: ['ladder:carrot/root/sound'] });
    expect(asked('apple', ['shrivelled']).allowed).toBe(true);
  });
  test('nothing that somebody is unsure of, in hand or in the lot', () => {
    expect(asked('carrot', ['unsure']).code).toBe('doubtful');
    const suspects = [{ state: 'open' }] as unknown as Giving['lot']['suspects'];
    expect(asked('carrot', ['sound'], { lot: lot({ suspects }) }).code).toBe('doubtful');
  });
  test('nothing with rot or mould: not in hand, not on its neighbours, not cut off since the last look', () => {
    for (const finding of ['mould', 'black_mould', 'soft_rot', 'rot']) {
      expect(asked('carrot', [finding]).code, finding).toBe('spoilt');
      expect(asked('carrot', ['sound'], { lot: lot({ standing: standing(finding) }) }).code).toBe('spoilt');
      expect(asked('carrot', ['sound'], { trimmed_for: [finding] }).code).toBe('spoilt');
    }
    expect(asked('carrot', ['sound'], { trimmed_for: ['shrivelled'] }).allowed).toBe(true);
  });
  test('a jar of an acid fruit, and no other jar', () => {
    expect(asked('jar', ['sound'], { jar_of: ['apple'] }).allowed).toBe(true);
    expect(asked('jar', ['sound'], { jar_of: ['carrot'] })).toMatchObject({
      code: 'low_acid',
      rows: ['kitchen_safety:canning_low_acid'],
    });
    expect(asked('jar', ['sound'], { jar_of: ['tomato'] }).code).toBe('low_acid');
    expect(asked('jar', ['sound'], { jar_of: ['apple', 'carrot'] }).code).toBe('low_acid');
    expect(asked('jar', ['sound'], { jar_of: [] }).code).toBe('not_told');
    expect(asked('jar', ['lid_up'], { jar_of: ['apple'] }).code).toBe('not_food');
  });
  test('nothing past its day, no dressed seed, nothing no table knows', () => {
    expect(asked('frozen', ['sound'], { lot: lot({ keeps_until: '2026-11-24' }) }).code).toBe('past');
    expect(asked('frozen', ['sound'], { lot: lot({ keeps_until: '2026-11-25' }) }).allowed).toBe(true);
    const seed = { pieces: 4, grams: null, treated: true };
    expect(asked('potato', ['sound'], { lot: lot({ seed }) }).code).toBe('seed');
    expect(asked('of_ones_own', ['sound']).code).toBe('not_food');
  });
});

test('it is written as given, taken from what is on the turn', () => {
  expect(given_body('lot-1', { grams: 2000, measured: 'weighed' })).toEqual({
    lot: 'lot-1',
    for: 'give',
    turning: true,
    grams: 2000,
    measured: 'weighed',
  });
});
