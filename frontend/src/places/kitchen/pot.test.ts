import { beforeAll, describe, expect, test } from 'vitest';
import {
  kitchen_reference,
  reference,
  type KitchenReference,
  type Reference,
} from '../../reference/index.ts';
import { check_went } from '../../storekeeping/feeding.ts';
import type { Went } from '../../storekeeping/state.ts';
import { added_body, parts_for_pot, pot_of, pot_wants, spent_body } from './pot.ts';

let tables: Reference;
let kitchen: KitchenReference;
beforeAll(async () => {
  tables = await reference('en');
  kitchen = await kitchen_reference('en');
});

const row = (entry: string, day: string, grams: number | null, more: Partial<Went> = {}): Went => ({
  entry,
  kind: 'scrap',
  lot: null,
  crop: 'carrot',
  day,
  when_ms: 0,
  person: 'p',
  way: 'pot',
  bucket: 'eaten',
  pieces: null,
  grams,
  findings: ['sound'],
  part: 'peel',
  cut_in: 'kitchen',
  animals: null,
  accident: false,
  unwritten: false,
  ...more,
});
const spent = (day: string, grams: number) =>
  row('s', day, grams, { way: 'compost', findings: ['spent'], crop: null, part: null });

describe('what is in the pot', () => {
  test('is what went there since stock was made last, with the day it wants to be used by', () => {
    const pot = pot_of(
      [row('a', '2026-10-01', 900), spent('2026-10-20', 900), row('b', '2026-11-01', 400)],
      90,
    );
    expect(pot).toMatchObject({ grams: 400, oldest: '2026-11-01', use_by: '2027-01-30' });
    expect(pot.saved.map(({ entry }) => entry)).toEqual(['b']);
  });
  test('stock of a part of it takes the oldest first', () => {
    const pot = pot_of(
      [row('a', '2026-10-01', 900), row('b', '2026-11-01', 400), spent('2026-11-02', 1000)],
      90,
    );
    expect(pot.saved).toMatchObject([{ entry: 'b', grams: 300 }]);
  });
  test('what was not weighed lies there and goes with the rest', () => {
    const rows = [row('a', '2026-10-01', null), row('b', '2026-11-01', 400)];
    expect(pot_of(rows, 90)).toMatchObject({ grams: 400, oldest: '2026-10-01' });
    expect(pot_of([...rows, spent('2026-11-02', 400)], 90).saved).toEqual([]);
  });
  test('is nothing at first', () => {
    expect(pot_of([], 90)).toEqual({ saved: [], grams: 0, oldest: undefined, use_by: undefined });
  });
  test('keeps as long as the tables say: about three months, from memory', () => {
    expect(kitchen.keeps_days['stock_pot_stash']).toBe(90);
  });
});

describe('what the pot takes', () => {
  test('is what the ladder lets: peel and tops of carrots, the root itself last', () => {
    expect(parts_for_pot(tables.rules, 'carrot')).toEqual(['peel', 'tops', 'root']);
  });
  test('is no green potato, no rhubarb leaf, no brassica: the row of the pot says so', () => {
    expect(parts_for_pot(tables.rules, 'rhubarb')).toEqual([]);
    expect(parts_for_pot(tables.rules, 'cabbage')).toEqual([]);
    expect(tables.rules.ladder['potato']?.['greening']?.['peel']?.steps ?? []).not.toContain('pot');
  });
  test('a dish for four is scaled to those at table', () => {
    expect(pot_wants(0.75, 4)).toBe(750);
    expect(pot_wants(0.75, 6)).toBe(1125);
  });
});

test('nothing spent from the pot goes to animals: the form has no such way, and the server refuses it', () => {
  const bodies = [spent_body(900, 'compost'), spent_body(900, 'bin')] as const;
  expect(bodies.map(({ went }) => JSON.stringify(went))).not.toContain('animals');
  const went = { step: 'animals', grams: 900, cut_in: 'yard', animals: 'g' } as const;
  const leaving = { crop: null, findings: ['spent'], whole: false };
  const law = { country: 'NZ', confirmed: true, kitchen_to: ['laying_hen'] };
  expect(check_went(tables.rules, went, leaving, { g: { kind: 'laying_hen' } }, law)?.code).toBe('spent');
});

test('what is added says that it was sound, and what it was', () => {
  expect(added_body('carrot', 'peel', 300)).toEqual({
    crop: 'carrot',
    findings: ['sound'],
    went: [{ step: 'pot', grams: 300, part: 'peel', cut_in: 'kitchen' }],
  });
});
