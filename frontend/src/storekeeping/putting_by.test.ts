// Vectors written by hand from fixtures/reference; the twin is tests/storekeeping/test_putting_by.py.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { may_put_by } from './putting_by.ts';
import type { Rules } from './rules.ts';

const read = <T>(path: string): T => JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8')) as T;
const rules = read<Rules>('../reference/built/rules.json');
const { cases } = read<{
  cases: { name: string; crop: string; findings: readonly string[]; expect: unknown }[];
}>('../../../fixtures/vectors/put_by.json');

it.each(cases)('puts by only what is sound: $name', ({ crop, findings, expect: expected }) => {
  expect(may_put_by(rules, crop, findings)).toEqual(expected);
});
