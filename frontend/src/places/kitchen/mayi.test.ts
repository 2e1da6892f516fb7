import { beforeAll, describe, expect, test } from 'vitest';
import { reference, type Reference } from '../../reference/index.ts';
import { en } from '../../words/found.en.ts';
import { offer, type Offer } from '../shared/offer.ts';
import {
  asks_mould_note,
  asks_sprouts_note,
  chosen_with,
  headline,
  other_words,
  parts_in_hand,
  words_to_choose,
} from './mayi.ts';

// What may be done with what is the tables' own (fixtures/reference/ladder.csv, kitchen_safety.csv), as the phone holds them.
let tables: Reference;
beforeAll(async () => {
  tables = await reference('en');
});
const joined = (words: readonly string[]) => words.join(' and ');
const ask = (crop: string, ...findings: string[]): Offer => asked(crop, findings, false);
const asked = (crop: string, findings: readonly string[], for_seed: boolean): Offer =>
  offer(
    {
      question: { crop, findings, cut_in: 'kitchen' },
      groups: [{ id: 'hens', name: 'Hens', kind: 'laying_hen' }],
      law: null,
      may: { food: true, feed: true },
      for_seed,
    },
    tables,
    { ...en.offer, names: joined, list: joined },
  );
const head = (crop: string, ...findings: string[]) =>
  headline(tables.rules, crop, findings, ask(crop, ...findings));

describe('the first words of the answer', () => {
  test('a mould spot on a firm head: trimmed and cooked, not raw', () => {
    expect(head('cabbage', 'mould')).toEqual({ best: 'cook', trimmed: true, not_raw: true });
  });
  test('mould on a soft tomato: none of it is eaten', () => {
    expect(head('tomato', 'mould').best).toBe('compost');
  });
  test('a potato begins at cook, so that nobody is told it was raw once', () => {
    expect(head('potato', 'sound')).toEqual({ best: 'cook', trimmed: false, not_raw: false });
  });
  test('sound, but all of it kept for seed: nobody is told to eat or feed it', () => {
    const offered = asked('carrot', ['sound'], true);
    expect(headline(tables.rules, 'carrot', ['sound'], offered).best).toBe('compost');
    expect(headline(tables.rules, 'carrot', ['sound'], ask('carrot', 'sound')).best).toBe('raw');
  });
  test('a jar with its lid up goes to the bin', () => {
    expect(head('jar', 'lid_up').best).toBe('bin');
  });
  test.each([
    ['carrot', 'unsure'],
    ['bean_dry', 'sprouting'],
    ['a crop of ones own', 'sound'],
  ])('%s, %s: not known, never fine, and no animal is offered', (crop, finding) => {
    expect(head(crop, finding).best).toBe('not_known');
    expect(ask(crop, finding).rows.filter(({ step, offered }) => step === 'animals' && offered)).toEqual([]);
  });
});

describe('what is asked', () => {
  test('the words begin with sound and what the crop has, and end with not being able to say', () => {
    const words = words_to_choose(tables.rules, 'cabbage', ['yellowing'], true);
    expect(words.slice(0, 2)).toEqual(['sound', 'yellowing']);
    expect(words.at(-1)).toBe('unsure');
    expect(words).toContain('mould');
    expect(words).not.toContain('old');
    expect(words_to_choose(tables.rules, 'cabbage', [], false)).toContain('old');
  });
  test('every finding of the tables can be said of every crop', () => {
    const all = Object.entries(tables.rules.findings).filter(([, { kind }]) => kind !== 'state');
    for (const crop of Object.keys(tables.rules.crops)) {
      const own = words_to_choose(tables.rules, crop, [], false);
      const said = [...own, ...other_words(tables.rules, own)];
      for (const [finding] of all) expect(said, crop).toContain(finding);
    }
  });
  test('sound and not being able to say stand alone', () => {
    expect(chosen_with(['mould'], 'sound', true)).toEqual(['sound']);
    expect(chosen_with(['sound'], 'mould', true)).toEqual(['mould']);
    expect(chosen_with(['unsure'], 'mould', true)).toEqual(['mould']);
    expect(chosen_with(['mould', 'frosted'], 'mould', false)).toEqual(['frosted']);
  });
  test('parts are those that come off: leaves and core of a cabbage, not the head nor its good part', () => {
    expect(parts_in_hand(tables.rules, 'cabbage', ['yellowing'])).toEqual(['outer leaves', 'core']);
    expect(parts_in_hand(tables.rules, 'carrot', ['gnawed'])).toEqual(['peel', 'tops']);
  });
  test('sprouted seeds bring the sentence on raw sprouts, sprouted potatoes do not', () => {
    const asks = (crop: string, finding: string) => asks_sprouts_note(tables.rules, crop, [finding]);
    expect(asks('bean_dry', 'sprouting')).toBe(true);
    expect(asks('bean_dry', 'insect')).toBe(false);
    expect(asks('potato', 'sprouting')).toBe(false);
  });

  test('rot and mould bring the sentence on what is covered', () => {
    expect(asks_mould_note(tables.rules, ['black_mould'])).toBe(true);
    expect(asks_mould_note(tables.rules, ['shrivelled'])).toBe(false);
  });
});
