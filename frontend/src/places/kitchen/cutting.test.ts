import { beforeAll, describe, expect, test } from 'vitest';
import { reference, type Reference } from '../../reference/index.ts';
import { check_went } from '../../storekeeping/feeding.ts';
import type { Went } from '../../storekeeping/rules.ts';
import { en } from '../../words/found.en.ts';
import { offer, type Offer } from '../shared/offer.ts';
import { cut_entries, named_first, goes_first, good_inside, type Cutting } from './cutting.ts';

const cutting: Cutting = {
  lot: 'l',
  pieces: 1,
  findings: ['yellowing'],
  cut_in: 'store',
  cuts: [
    { part: 'outer leaves', grams: 300, to: 'animals:hens' },
    { part: 'core', grams: 200, to: 'compost' },
  ],
  ratio: 2000,
};

describe('a piece cut down to the good inside', () => {
  test('what comes off goes its ways and the rest is eaten: to the gram what the piece weighed', () => {
    const entries = cut_entries(cutting);
    expect(entries).toEqual([
      {
        kind: 'trim',
        body: {
          lot: 'l',
          pieces: 1,
          findings: ['yellowing'],
          cut: { step: 'animals', animals: 'hens', grams: 300, part: 'outer leaves', cut_in: 'store' },
        },
      },
      {
        kind: 'trim',
        body: {
          lot: 'l',
          pieces: 1,
          findings: ['yellowing'],
          cut: { step: 'compost', grams: 200, part: 'core', cut_in: 'store' },
        },
      },
      { kind: 'take', body: { lot: 'l', for: 'eat', pieces: 1, grams: 1500, measured: 'guessed' } },
    ]);
  });
  test('a piece nobody knows the weight of is taken by the piece', () => {
    expect(cut_entries({ ...cutting, ratio: null }).at(-1)?.body).toEqual({
      lot: 'l',
      for: 'eat',
      pieces: 1,
    });
    expect(good_inside({ ...cutting, ratio: null })).toBeNull();
  });
  test('more cut off than there was shows as less than nothing', () => {
    expect(good_inside({ ...cutting, ratio: 400 })).toBe(-100);
  });
  test('a part nobody names is written without a part, and so judged as the worst of it', () => {
    const [trim] = cut_entries({ ...cutting, cuts: [{ part: 'not_known', grams: 100, to: 'compost' }] });
    expect(trim?.body['cut']).toEqual({ step: 'compost', grams: 100, cut_in: 'store' });
  });
});

describe('where a part goes by itself', () => {
  let tables: Reference;
  beforeAll(async () => {
    tables = await reference('en');
  });
  const joined = (words: readonly string[]) => words.join(' and ');
  const hens = { id: 'hens', name: 'Hens', kind: 'laying_hen' };
  const part = (name: string, finding: string, cut_in: 'store' | 'kitchen'): Offer =>
    offer(
      {
        question: { crop: 'cabbage', part: name, findings: [finding], cut_in },
        groups: [hens],
        law: null,
        may: { food: true, feed: true },
      },
      tables,
      { ...en.offer, names: joined, list: joined },
    );

  test('yellow leaves stripped in the store to the hens, the core that no row names to the compost', () => {
    expect(goes_first(part('outer leaves', 'yellowing', 'store'), true)).toBe('animals:hens');
    expect(goes_first(part('core', 'yellowing', 'store'), false)).toBe('compost');
  });
  test('of several groups to the one whose kind the ladder names first', () => {
    const rows = ['pigs', 'hens'].map((id) => ({ step: 'animals', key: `animals:${id}`, offered: true }));
    const offered = {
      known: true,
      sources: {},
      rows: [...rows, { step: 'compost', offered: true }],
    } as Offer;
    expect(goes_first(offered, true)).toBe('animals:pigs');
    expect(goes_first(offered, true, 'hens')).toBe('animals:hens');
    expect(goes_first(offered, true, 'geese')).toBe('animals:pigs');
    const groups = [
      { id: 'pigs', kind: 'pig' },
      { id: 'hens', kind: 'laying_hen' },
    ];
    const row = tables.rules.ladder['cabbage']?.['yellowing']?.['outer leaves'];
    expect(named_first(groups, row?.offered ?? [])).toBe('hens');
    expect(named_first(groups, ['cattle'])).toBeUndefined();
  });
  test('the same leaves cut in the kitchen before a country is set to the compost', () => {
    expect(goes_first(part('outer leaves', 'yellowing', 'kitchen'), true)).toBe('compost');
  });
  test('furred leaves never to the hens', () => {
    expect(goes_first(part('outer leaves', 'mould', 'store'), true)).toBe('compost');
  });
  test('what goes by itself is taken by the server: the same rule is asked at push', () => {
    for (const finding of ['sound', 'yellowing', 'mould', 'frosted', 'bolted'])
      for (const name of ['outer leaves', 'core']) {
        const to = goes_first(part(name, finding, 'store'), true);
        const went: Went = {
          step: (to?.split(':')[0] ?? 'bin') as Went['step'],
          part: name,
          cut_in: 'store',
          ...(to?.startsWith('animals') ? { animals: 'hens' } : {}),
        };
        const leaving = { crop: 'cabbage', findings: [finding], whole: false };
        expect(check_went(tables.rules, went, leaving, { hens }, null), `${name} ${finding}`).toBeNull();
      }
  });
});
