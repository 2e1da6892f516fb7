// Vectors written by hand from fixtures/reference/soil_diseases.csv; the twin is tests/storekeeping/test_soil.py.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Rules } from './rules.ts';
import { kin_of_bed, taken_in, type OnHeap } from './soil.ts';

const read = <T>(path: string): T => JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8')) as T;
const rules = read<Rules>('../reference/built/rules.json');

interface Case {
  readonly name: string;
  readonly loads: readonly OnHeap[];
  readonly grows: string;
  readonly taken: readonly unknown[];
  readonly barred_by: string | null;
}

it.each(read<{ cases: Case[] }>('../../../fixtures/vectors/soil.json').cases)(
  '$name',
  ({ loads, grows, taken: wanted, barred_by }) => {
    const taken = taken_in(rules, loads);
    expect(taken.map(({ disease, sure, crop, day }) => [disease, sure, crop, day])).toEqual(wanted);
    expect(kin_of_bed(taken, grows)?.disease ?? null).toBe(barred_by);
  },
);
