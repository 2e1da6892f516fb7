// Vectors written by hand from fixtures/reference; the twin is tests/storekeeping/test_putting_by.py.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { may_be_trimmed_off, may_put_by, may_put_by_of_lot, type SomeOfIt } from './putting_by.ts';
import type { Rules } from './rules.ts';
import type { LotState } from './state.ts';

const read = <T>(path: string): T => JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8')) as T;
const rules = read<Rules>('../reference/built/rules.json');
const of_lot = read<{
  cases: {
    name: string;
    crop: string;
    told: readonly string[] | null;
    amount: SomeOfIt;
    lot: Pick<LotState, 'pieces' | 'grams' | 'ratio' | 'standing'>;
    code: string | null;
  }[];
}>('../../../fixtures/vectors/put_by_of_lot.json');
const { cases } = read<{
  cases: { name: string; crop: string; findings: readonly string[]; expect: unknown }[];
}>('../../../fixtures/vectors/put_by.json');

it.each(cases)('puts by only what is sound: $name', ({ crop, findings, expect: expected }) => {
  expect(may_put_by(rules, crop, findings)).toEqual(expected);
});

it.each(of_lot.cases)('of a lot, $name', ({ crop, told, amount, lot, code }) => {
  expect(may_put_by_of_lot(rules, crop, told, amount, lot).code ?? null).toBe(code);
});

it('puts by no piece that rot or mould was cut from, and any that was only peeled', () => {
  expect(may_be_trimmed_off(rules, 'carrot', ['black_mould'])).toMatchObject({ code: 'spoilt' });
  expect(may_be_trimmed_off(rules, 'apple', ['bruise'])).toMatchObject({ code: 'patulin' });
  for (const fine of [[], ['sound'], ['shrivelled'], ['gnawed']])
    expect(may_be_trimmed_off(rules, 'carrot', fine).allowed).toBe(true);
});
