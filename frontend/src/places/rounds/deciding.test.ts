import { describe, expect, test } from 'vitest';
import { choicesFor, decisionBody, notKept, outOf, stepOfChoice } from './deciding.ts';
import type { Offer } from '../shared/offer.ts';

const signs = {
  kind: (finding: string) => (finding === 'mould' ? 'rot' : 'moisture'),
  spreads: (finding: string) => finding === 'gnawed',
  urgency: (finding: string) => (finding === 'lid_up' ? 'now' : 'weeks'),
};
const offered: Offer = {
  known: true,
  rows: [
    { step: 'raw', offered: false, reason: 'not with mould' },
    { step: 'cook', offered: true, soft: 'Cut clear.' },
    { step: 'animals', key: 'animals:hens', word: 'Hens', offered: true },
    { step: 'compost', offered: true },
  ],
  best: 'cook',
  sources: {},
};
const cabbage = { id: 's', findings: ['mould'], pieces: 1, grams: null };

describe('deciding on a suspect', () => {
  test('with rot, what spreads or what presses on it a piece is neither kept nor used first', () => {
    expect(notKept(['mould', 'shrivelled'], signs)).toEqual(['mould']);
    expect(notKept(['gnawed'], signs)).toEqual(['gnawed']);
    expect(notKept(['lid_up'], signs)).toEqual(['lid_up']);
    expect(notKept(['shrivelled', 'unsure'], signs)).toEqual([]);
  });
  test('the cook rung is trim and cook, and is chosen first where it is the best left', () => {
    const choices = choicesFor(cabbage, offered, signs, 'Trim and cook');
    expect(choices).toMatchObject({ keepable: false, against: ['mould'], first: 'trim' });
    expect(choices.rungs[1]).toMatchObject({ key: 'trim', word: 'Trim and cook' });
    expect(choices.rungs[2]).toMatchObject({ key: 'animals:hens' });
  });
  test('a limp one is used first; of an unsure one nothing is chosen for the eye that looks', () => {
    expect(choicesFor({ findings: ['shrivelled'] }, offered, signs, '').first).toBe('use_first');
    const { best, ...unknown } = offered;
    expect(best).toBe('cook');
    expect(choicesFor({ findings: ['unsure'] }, { ...unknown, known: false }, signs, '')).not.toHaveProperty(
      'first',
    );
  });
  test('a chore names who and by when', () => {
    expect(decisionBody(cabbage, { choice: 'trim', doer: 'tom', by: '2026-01-20', now: false })).toEqual({
      suspect: 's',
      do: 'trim',
      doer: 'tom',
      by: '2026-01-20',
    });
  });
  test('done on the spot says what left and where it went; trimmed and used first are cooked (F19)', () => {
    expect(decisionBody(cabbage, { choice: 'trim', now: true })).toEqual({
      suspect: 's',
      do: 'trim',
      out: { pieces: 1, findings: ['mould'], went: [{ step: 'cook' }] },
    });
    expect(stepOfChoice('use_first')).toEqual({ step: 'cook' });
  });
  test('kept is neither a chore nor out', () => {
    expect(decisionBody(cabbage, { choice: 'keep', doer: 'tom', now: true })).toEqual({
      suspect: 's',
      do: 'keep',
    });
  });
  test('to animals names the group in the decision and in what left', () => {
    expect(decisionBody(cabbage, { choice: 'animals:hens', now: true })).toMatchObject({
      do: 'animals',
      animals: 'hens',
      out: { went: [{ step: 'animals', animals: 'hens' }] },
    });
  });
  test('a weight told with the suspect leaves with it', () => {
    expect(outOf({ ...cabbage, grams: 1800 }, 'bin')).toEqual({
      pieces: 1,
      grams: 1800,
      findings: ['mould'],
      went: [{ step: 'bin' }],
    });
  });
});
