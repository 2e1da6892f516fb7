import { describe, expect, test } from 'vitest';
import type { Body, TrayLine } from '../../ledger';
import { as_accident, as_sound, fed_grams, fed_group, to_compost, ways_of, with_amount } from './ways_out';

const scrap: Body = {
  crop: 'beet',
  findings: ['mould'],
  went: [{ step: 'animals', animals: 'hens', grams: 1500 }],
};

const refused = (code: string, body: Body, kind = 'scrap', facts: Body = {}): TrayLine => ({
  id: 'a',
  written: {
    id: 'a',
    household: 'h',
    device: 'd',
    device_no: 1,
    person: 'p',
    kind,
    schema: 1,
    happened_at: '2026-01-12T18:20:00.000+01:00',
    dated: 'clock',
    body,
  },
  refusal: { code, message: '', facts, refused_at: '2026-01-12T18:25:00Z' },
  children: [],
  mendable: code !== 'id_reused',
});

describe('an entry sent to animals that must not have it', () => {
  test('may have gone to compost, been sound, been eaten, or never happened', () => {
    const row = refused('never', scrap, 'scrap', { reason: 'rot_or_mould' });
    expect(ways_of(row)).toEqual(['compost', 'sound', 'eaten', 'never']);
  });
  test('is not said to be sound where the law forbids it', () => {
    const row = refused('never', scrap, 'scrap', { reason: 'law_prohibited' });
    expect(ways_of(row)).toEqual(['compost', 'eaten', 'never']);
  });
  test('written as compost names no group', () => {
    expect(to_compost(scrap)).toEqual({ ...scrap, went: [{ step: 'compost', grams: 1500 }] });
  });
  test('inside an inspection only what was fed changes', () => {
    const inspection: Body = {
      lot: 'l',
      way: 'all',
      out: [{ pieces: 1, findings: ['rot'], went: [{ step: 'bin' }] }],
      trims: [{ findings: ['mould'], cut: { step: 'animals', animals: 'hens' } }],
    };
    expect(to_compost(inspection)).toEqual({
      ...inspection,
      trims: [{ findings: ['mould'], cut: { step: 'compost' } }],
    });
  });
  test('a decision for the animals becomes one for the compost', () => {
    expect(to_compost({ suspect: 's', do: 'animals', animals: 'hens' })).toEqual({
      suspect: 's',
      do: 'compost',
    });
  });
  test('written as sound keeps where it went', () => {
    expect(as_sound(scrap)).toEqual({ ...scrap, findings: ['sound'] });
  });
});

describe('an accident', () => {
  test('counts as its step and is marked', () => {
    expect(as_accident(scrap, 1500)).toEqual({
      ...scrap,
      went: [{ step: 'animals', animals: 'hens', grams: 1500, accident: true }],
    });
  });
  test('what they left was taken out and went to compost', () => {
    expect(as_accident(scrap, 400)).toEqual({
      ...scrap,
      went: [
        { step: 'animals', animals: 'hens', grams: 400, accident: true },
        { step: 'compost', grams: 1100 },
      ],
    });
  });
  test('unweighed it stays unweighed', () => {
    const out: Body = {
      lot: 'l',
      pieces: 2,
      findings: ['rot'],
      went: [{ step: 'animals', animals: 'pigs' }],
    };
    expect(as_accident(out, undefined)).toEqual({
      ...out,
      went: [{ step: 'animals', animals: 'pigs', accident: true }],
    });
    expect(fed_grams(out)).toBeUndefined();
    expect(fed_group(out)).toBe('pigs');
  });
});

test('an amount out of bounds is written with another, in its own measure', () => {
  expect(ways_of(refused('pieces', { lot: 'l', pieces: -3, for: 'eat' }, 'take'))).toEqual([
    'amount',
    'never',
  ]);
  expect(with_amount({ lot: 'l', pieces: -3 }, 3)).toEqual({ lot: 'l', pieces: 3 });
  expect(with_amount({ lot: 'l', grams: 9e6, pieces: 4 }, 2.5)).toEqual({ lot: 'l', grams: 2500 });
});

test('another refusal may be sent once more or let go', () => {
  expect(ways_of(refused('unknown_reference', scrap))).toEqual(['again', 'never']);
});

test('what the family erased can only be let go', () => {
  expect(ways_of(refused('erased', scrap))).toEqual(['never']);
});
