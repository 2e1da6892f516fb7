// Vectors of fixtures/vectors/fold_source; the twin is tests/storekeeping/test_fold_vectors.py.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { disagreements, type Vector } from '../../../tests/storekeeping/agreement.ts';
import { fold_all, state_at } from './fold.ts';

const read = (path: string): readonly Vector[] => {
  const text = readFileSync(new URL(path, import.meta.url), 'utf8');
  return (JSON.parse(text) as { vectors: Vector[] }).vectors;
};
const agrees = (vector: Vector) => {
  const folded = fold_all(vector.lines, vector.setting);
  expect(disagreements(vector, state_at(folded, vector.today))).toEqual([]);
};

describe('a vector written by hand', () => {
  it.each(read('../../../fixtures/vectors/fold_by_hand.json'))('$name', agrees);
});

describe('a vector made by the grammar', () => {
  it.each(read('../../../fixtures/vectors/fold_generated.json'))('$name', agrees);
});
