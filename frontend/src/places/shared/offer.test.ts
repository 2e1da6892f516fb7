import { beforeAll, describe, expect, test } from 'vitest';
import { reference, type Reference } from '../../reference/index.ts';
import { en } from '../../words/found.en.ts';
import { all_for_seed, offer, stricter, type Asked, type May, type Offer } from './offer.ts';

// What may go where is the tables' own (fixtures/reference/ladder.csv, feed_safety.csv), as the phone holds them.
let tables: Reference;
beforeAll(async () => {
  tables = await reference('en');
});

const everything: May = { food: true, feed: true };
const hens = { id: 'hens', name: 'Hens', kind: 'laying_hen' };
const pigs = { id: 'pigs', name: 'Pigs', kind: 'pig' };
const joined = (words: readonly string[]) => words.join(' and ');
const words = { ...en.offer, names: joined, list: joined };

function ask(crop: string, findings: readonly string[], more: Partial<Asked> = {}): Offer {
  const question = { crop, findings, cut_in: 'store' as const };
  return offer(
    { question, groups: [hens, pigs], law: { country: 'AT', confirmed: true }, may: everything, ...more },
    tables,
    words,
  );
}
const row = (offered: Offer, key: string) => offered.rows.find((one) => (one.key ?? one.step) === key);

describe('what is kept for seed', () => {
  const kept = (pieces: number | null, grams: number | null) => ({ pieces, grams, treated: false });
  test('is offered neither as food nor as feed, though nothing dressed it', () => {
    const offered = ask('cabbage', ['sound'], { for_seed: true });
    for (const step of ['raw', 'cook', 'pot', 'animals'])
      expect(row(offered, step)).toMatchObject({ offered: false, reason: 'all of it is kept for seed' });
    expect(offered.rows.filter(({ offered }) => offered).map(({ step }) => step)).toEqual(['compost', 'bin']);
    expect(offered.best).toBe('compost');
  });
  test('is all of a lot where no more is there, in either measure', () => {
    expect(all_for_seed({ seed: kept(6, null), shown: { pieces: 6, grams: 900 } })).toBe(true);
    expect(all_for_seed({ seed: kept(null, 900), shown: { pieces: null, grams: 900 } })).toBe(true);
    expect(all_for_seed({ seed: kept(6, 600), shown: { pieces: 9, grams: 900 } })).toBe(false);
    expect(all_for_seed({ seed: kept(0, 0), shown: { pieces: 0, grams: 0 } })).toBe(false);
  });
});

describe('where a piece may go', () => {
  test('mould on a firm root is cut clear and cooked; raw and animals are not offered and say why', () => {
    const offered = ask('carrot', ['black_mould']);
    expect(offered).toMatchObject({ known: true, best: 'cook' });
    expect(row(offered, 'cook')).toMatchObject({ offered: true });
    // Academy of Nutrition and Dietetics, named in kitchen_safety.csv: cut 2.5 cm (1 inch) round and below.
    expect(row(offered, 'cook')?.soft).toContain('2.5 cm');
    expect(row(offered, 'raw')).toMatchObject({ offered: false, reason: 'not with black_mould' });
    expect(row(offered, 'animals')).toMatchObject({ offered: false, reason: 'rot and mould to none' });
    expect(offered.sources['animals']).toContain('feed_safety:laying_hen/any_produce/any/mouldy');
  });
  test('the words of the kitchen stand at the step that feeds people, not at the compost below it', () => {
    expect(row(ask('carrot', ['black_mould']), 'compost')).toEqual({ step: 'compost', offered: true });
  });
  test('white wool goes out with its bed, the heap row says how', () => {
    const offered = ask('carrot', ['white_mould']);
    expect(offered.best).toBe('compost');
    expect(row(offered, 'cook')?.offered).toBe(false);
    expect(row(offered, 'compost')?.soft).toContain('never to beds of its kin');
  });
  test('a potato begins at cook', () => {
    expect(row(ask('potato', ['sound']), 'raw')).toMatchObject({ offered: false, reason: 'never raw' });
    expect(row(ask('any_produce', ['sound']), 'pot')).toMatchObject({
      offered: false,
      reason: 'not for this',
    });
  });
  test('green potatoes go to no animal', () => {
    expect(row(ask('potato', ['greening']), 'animals')).toMatchObject({
      offered: false,
      reason: 'never: it harms them',
    });
  });
  test('each group that may have it is a row of its own, one that should not says so', () => {
    const offered = ask('cabbage', ['yellowing']);
    expect(row(offered, 'animals:hens')).toMatchObject({ offered: true, word: 'Hens' });
    expect(row(offered, 'animals:pigs')).toMatchObject({ offered: false, reason: 'better not' });
  });
  test('a group under treatment gets nothing', () => {
    const offered = ask('cabbage', ['yellowing'], { groups: [{ ...hens, withheld: true }] });
    expect(row(offered, 'animals')).toMatchObject({ offered: false });
  });
  test('a jar with its lid up goes unopened to the bin', () => {
    const offered = ask('jar', ['lid_up']);
    expect(offered.best).toBe('bin');
    expect(offered.rows.filter(({ offered: open }) => open).map(({ step }) => step)).toEqual(['bin']);
  });
  test('while nobody can say what it is nothing is chosen for the hand, and no animal has it', () => {
    const offered = ask('carrot', ['unsure']);
    expect(offered.known).toBe(false);
    expect(offered).not.toHaveProperty('best');
    expect(row(offered, 'animals')?.offered).toBe(false);
  });
  test('the bin is always there', () => {
    expect(row(ask('carrot', ['black_mould']), 'bin')?.offered).toBe(true);
  });
  test('who may not judge food or feed is offered neither, and told who does', () => {
    const offered = ask('cabbage', ['yellowing'], { may: { food: false, feed: false } });
    expect(offered.rows.filter(({ offered: open }) => open).map(({ step }) => step)).toEqual([
      'compost',
      'bin',
    ]);
    expect(offered.best).toBe('compost');
    expect(row(offered, 'animals')).toMatchObject({ offered: false, reason: en.offer.not_yours });
  });
  test('without animals the rung says none', () => {
    expect(row(ask('cabbage', ['yellowing'], { groups: [] }), 'animals')).toMatchObject({ offered: false });
  });
});

test('a piece with two findings goes the stricter way', () => {
  expect(stricter(['cook', 'animals:hens', 'compost'])).toBe('compost');
  expect(stricter(['raw', 'animals:hens'])).toBe('animals:hens');
});

describe('who is at table', () => {
  const eaters = (crop: string, finding: string, ...at_table: string[]) =>
    ask(crop, [finding], {
      question: { crop, findings: [finding], cut_in: 'store', eaters: at_table },
    });

  test('makes the words stricter where the food is, and names the rule once for all it binds', () => {
    const offered = eaters('carrot', 'black_mould', 'old', 'small_child');
    expect(row(offered, 'cook')?.soft).toContain('Not for small children and old people: What mould');
    expect(offered.sources['cook']).toContain('eaters:trimmed_frail');
  });
  test('never makes them milder: every sentence said to the hale is said to them too', () => {
    for (const [crop, finding] of [
      ['carrot', 'black_mould'],
      ['potato', 'greening'],
      ['egg', 'sound'],
      ['walnut', 'sound'],
    ] as const) {
      const hale = eaters(crop, finding);
      const frail = eaters(crop, finding, 'infant', 'pregnant', 'ill', 'no_nuts');
      for (const { offered, soft = '', step, key = step } of hale.rows)
        if (offered) expect(row(frail, key)?.soft ?? '').toContain(soft);
    }
  });
});
