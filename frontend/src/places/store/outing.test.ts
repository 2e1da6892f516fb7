import { expect, test } from 'vitest';
import { cull_body, trim_body } from './outing';

const out = { lot: 'a', findings: ['soft_rot'], amount: { pieces: 2 }, to: 'compost' };

test('pieces lost go whole where the hand says', () => {
  expect(cull_body(out)).toEqual({
    lot: 'a',
    pieces: 2,
    findings: ['soft_rot'],
    went: [{ step: 'compost' }],
  });
});
test('what is cut off has its weight, its part and where it was cut, and names the animals', () => {
  const cut = { ...out, amount: { grams: 300 }, to: 'animals:hens', cut_in: 'yard', part: 'leaves' } as const;
  expect(trim_body(cut)).toEqual({
    lot: 'a',
    findings: ['soft_rot'],
    cut: { step: 'animals', animals: 'hens', grams: 300, part: 'leaves', cut_in: 'yard' },
  });
});
test('cut off and not weighed, only the pieces are told', () => {
  expect(trim_body({ ...out, cut_in: 'store', part: undefined })).toEqual({
    lot: 'a',
    pieces: 2,
    findings: ['soft_rot'],
    cut: { step: 'compost', cut_in: 'store' },
  });
});
