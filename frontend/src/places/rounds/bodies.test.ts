import { describe, expect, test } from 'vitest';
import { allGone, inspectionBody, notLookedBody, suspectBody, went } from './bodies.ts';
import { changeGoing, setFindings, setLooked, setWhole, takeUp } from './lotstep.ts';

const walk = { round: 'round', space: 'cellar' };
const sample = takeUp('lot', { there: 300, looked: 30, whole: false });
const heads = takeUp('lot', { there: 17, looked: 17, whole: true });

describe('an inspection', () => {
  test('all sound in one tap looks at all and counts nothing (F11)', () => {
    expect(inspectionBody(heads, walk)).toEqual({
      lot: 'lot',
      round: 'round',
      space: 'cellar',
      way: 'all',
      looked: 17,
      counted: false,
    });
  });
  test('a number touched by hand counts, where it is all there is', () => {
    expect(inspectionBody(setLooked(heads, 16), walk)).toMatchObject({
      way: 'all',
      looked: 16,
      counted: true,
    });
  });
  test('a number touched by hand counts nothing of a sample', () => {
    expect(inspectionBody(setLooked(sample, 34), walk)).toMatchObject({
      way: 'sample',
      looked: 34,
      counted: false,
    });
    expect(inspectionBody(setWhole(setLooked(heads, 10), false), walk)).toMatchObject({
      way: 'sample',
      looked: 10,
      counted: false,
    });
  });
  test('where nobody knows how many there are nothing is said of it', () => {
    const bulk = takeUp('lot', { whole: true });
    expect(inspectionBody(bulk, walk)).toEqual({
      lot: 'lot',
      round: 'round',
      space: 'cellar',
      way: 'all',
      counted: false,
    });
  });
  test('outs carry their own findings and go each its own way; all seen is told', () => {
    let lot = setFindings(sample, ['black_mould', 'white_mould'], () => ({ way: 'out', to: 'compost' }));
    lot = changeGoing(lot, 'black_mould', { pieces: 2, to: 'cook' });
    expect(inspectionBody(lot, walk)).toMatchObject({
      seen: [
        { finding: 'black_mould', pieces: 2 },
        { finding: 'white_mould', pieces: 1 },
      ],
      out: [
        { pieces: 2, findings: ['black_mould'], went: [{ step: 'cook' }] },
        { pieces: 1, findings: ['white_mould'], went: [{ step: 'compost' }] },
      ],
    });
    expect(inspectionBody(lot, walk)).not.toHaveProperty('trims');
  });
  test('what is trimmed was cut in the store and says the part', () => {
    const lot = changeGoing(
      setFindings(heads, ['yellowing'], () => ({ way: 'trim', to: 'animals:hens' })),
      'yellowing',
      {
        pieces: 2,
        grams: 700,
      },
    );
    expect(inspectionBody(lot, walk, () => 'outer leaves')['trims']).toEqual([
      {
        pieces: 2,
        findings: ['yellowing'],
        cut: { step: 'animals', animals: 'hens', part: 'outer leaves', grams: 700, cut_in: 'store' },
      },
    ]);
  });
  test('none of a finding went out: it was seen, unnumbered', () => {
    const lot = changeGoing(
      setFindings(heads, ['yellowing'], () => ({ way: 'out', to: 'raw' })),
      'yellowing',
      {
        pieces: 0,
      },
    );
    expect(inspectionBody(lot, walk)).toMatchObject({ seen: [{ finding: 'yellowing' }] });
    expect(inspectionBody(lot, walk)).not.toHaveProperty('out');
  });
  test('seen and left in the lot is neither out nor trimmed; unnumbered has no pieces', () => {
    const lot = changeGoing(
      setFindings(heads, ['shrivelled'], () => ({ way: 'left' })),
      'shrivelled',
      { pieces: 0 },
    );
    const body = inspectionBody(lot, walk);
    expect(body['seen']).toEqual([{ finding: 'shrivelled' }]);
    expect(body).not.toHaveProperty('out');
  });
});

test('not looked at has a reason and no evidence', () => {
  expect(notLookedBody('lot', walk, 'out_of_reach')).toEqual({
    lot: 'lot',
    round: 'round',
    space: 'cellar',
    way: 'none',
    why_not: 'out_of_reach',
    counted: false,
  });
});

describe('all gone', () => {
  const left = { pieces: 299.7, grams: 41_000.4 };
  test('eaten is a count of nothing under that word', () => {
    expect(allGone('lot', walk, 'eaten', left, true)).toEqual({
      kind: 'count',
      body: { lot: 'lot', pieces: 0, gone: 'eaten' },
    });
    expect(allGone('lot', walk, 'given', { grams: 900 }, true).body).toEqual({
      lot: 'lot',
      grams: 0,
      gone: 'given',
    });
  });
  test('to the hens the rest is culled, in quarters and whole grams, as the last of it', () => {
    expect(allGone('lot', walk, 'animals:hens', left, true)).toEqual({
      kind: 'cull',
      body: {
        lot: 'lot',
        pieces: 299.75,
        grams: 41_000,
        findings: ['sound'],
        went: [{ step: 'animals', animals: 'hens' }],
        last: true,
      },
    });
  });
  test('nothing known of it is a cull of no pieces, the last', () => {
    expect(allGone('lot', walk, 'compost', {}, true).body).toMatchObject({ pieces: 0, last: true });
  });
  test('who may not write stock looks and finds none', () => {
    expect(allGone('lot', walk, 'unknown', left, false)).toEqual({
      kind: 'inspection',
      body: { lot: 'lot', round: 'round', space: 'cellar', way: 'all', looked: 0, counted: true },
    });
  });
});

test('a suspect nobody can name is unsure, and carries its ring', () => {
  expect(suspectBody('lot', walk, { findings: [], ring: { x: 0.1, y: 0.2, r: 0.15 } }, 'set_apart')).toEqual({
    lot: 'lot',
    round: 'round',
    findings: ['unsure'],
    lies: 'set_apart',
    pieces: 1,
    ring: { x: 0.1, y: 0.2, r: 0.15 },
  });
});

test('a row of the ladder is a step, with the group where it goes to animals', () => {
  expect(went('animals:hens')).toEqual({ step: 'animals', animals: 'hens' });
  expect(went('bin')).toEqual({ step: 'bin' });
});
