import { expect, test } from 'vitest';
import { accident_entries, cull_body, less_seed, trim_body } from './outing';

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

const fed = { lot: 'a', findings: ['mould'], amount: { pieces: 3 } };

test('what animals ate all the same is an accident; what lay there still went to the compost', () => {
  expect(accident_entries(fed, 'hens', 2)).toEqual([
    {
      kind: 'cull',
      body: {
        lot: 'a',
        pieces: 2,
        findings: ['mould'],
        went: [{ step: 'animals', animals: 'hens', accident: true }],
      },
    },
    { kind: 'cull', body: { lot: 'a', pieces: 1, findings: ['mould'], went: [{ step: 'compost' }] } },
  ]);
});
test('all of it eaten is one entry, also of a part cut off', () => {
  const cut = { cut_in: 'yard', part: 'leaves' } as const;
  expect(accident_entries({ ...fed, amount: { grams: 400 }, cut }, 'hens', 400)).toEqual([
    {
      kind: 'trim',
      body: {
        lot: 'a',
        findings: ['mould'],
        cut: { step: 'animals', animals: 'hens', grams: 400, part: 'leaves', cut_in: 'yard', accident: true },
      },
    },
  ]);
});

test('pieces of the seed that are lost leave less kept for seed', () => {
  const kept = (pieces: number | null, grams: number | null, treated = false) => ({
    id: 'a',
    seed: { pieces, grams, treated },
  });
  expect(less_seed(kept(20, 2000, true), { pieces: 3 })).toEqual([{ lot: 'a', pieces: 17, treated: true }]);
  expect(less_seed(kept(20, 2000), { grams: 2500 })).toEqual([{ lot: 'a', grams: 0 }]);
  expect(less_seed(kept(null, 2000), { pieces: 3 })).toEqual([]);
});
