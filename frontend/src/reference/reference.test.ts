import { describe, expect, it } from 'vitest';
import { load_texts } from './built.ts';
import { kitchen_reference, reference, source_of, sources_of } from './index.ts';

describe('the tables on the phone', () => {
  it('speaks each language', async () => {
    const [en, de] = await Promise.all([reference('en'), reference('de')]);
    expect([en.crop_name('carrot'), de.crop_name('carrot')]).toEqual(['carrot', 'Möhre']);
    expect([en.finding_name('rot'), de.finding_name('rot')]).toEqual(['Rot', 'Fäule']);
    expect(de.finding_name('unsure')).toBe('Unsicher');
  });

  it('has the same texts in each language', async () => {
    const shape = (texts: unknown): unknown =>
      Array.isArray(texts)
        ? texts.map((text) => text !== '')
        : typeof texts === 'object' && texts !== null
          ? Object.fromEntries(Object.entries(texts).map(([key, inside]) => [key, shape(inside)]))
          : texts !== '';
    for (const which of ['words', 'kitchen_words'] as const) {
      const [en, de] = await Promise.all([load_texts(which, 'en'), load_texts(which, 'de')]);
      expect(shape(de)).toEqual(shape(en));
    }
  });

  it('has a name for every crop, finding, pack, animal and part', async () => {
    for (const language of ['en', 'de'] as const) {
      const tables = await reference(language);
      for (const crop of [...tables.crops, ...tables.in_hand])
        expect(tables.crop_name(crop)).not.toMatch(/_/);
      for (const finding of Object.keys(tables.rules.findings))
        expect(tables.finding_name(finding)).not.toMatch(/_/);
      for (const animal of tables.rules.animals) expect(tables.animal_name(animal)).not.toMatch(/_/);
      for (const crop of tables.crops) {
        for (const { pack } of tables.packs_of(crop)) expect(tables.pack_name(pack)).not.toMatch(/_/);
      }
    }
  });

  it('tells what to look for, in full sentences of the table', async () => {
    const { look_fors, finding_spreads } = await reference('en');
    const wool = look_fors('carrot').find(({ finding }) => finding === 'white_mould');
    expect(wool).toMatchObject({ urgency: 'now', neighbours: 'yes', row: 'look_fors:carrot/white_mould' });
    expect(wool?.how_to_tell).toContain('white wool');
    expect(finding_spreads('white_mould')).toBe(true);
    expect(finding_spreads('bruise')).toBe(false);
  });

  it('gives the sentence and the caution of a row', async () => {
    const { sentence, caution } = await reference('en');
    expect(sentence('ladder:potato/tuber/sound')).toBe('Boil, bake, fry; never raw');
    expect(caution('ladder:potato/tuber/sound')).toBe('For hens and ducks boil it first');
    expect(caution('kitchen_safety:mould_nuts')).toContain('Mouldy nuts');
    expect(sentence('feed_safety:cattle/cabbage/outer leaves/sound')).toContain('toxic dose');
    expect(caution('eaters:honey_infant')).toContain('under one year');
    expect(caution('ladder:nothing/of/this')).toBe('');
  });

  it('gives how a crop is looked over and packed, best pack first', async () => {
    const { looking_over, packs_of } = await reference('en');
    expect(looking_over('carrot')).toMatchObject({
      way: 'sample',
      sample_pieces_min: 20,
      sample_share_pct: 10,
    });
    expect(looking_over('own_crop')).toBeNull();
    expect(packs_of('carrot')[0]?.fit).toBe('best');
  });

  it('tells where a row is from, and how well it is founded', async () => {
    expect(await source_of('kitchen_safety:honey_infants')).toMatchObject({ evidence: 'seen' });
    expect(await source_of('looking_over:carrot')).toMatchObject({ evidence: 'common practice' });
    expect((await sources_of('kitchen_safety:potato_green_sprouted')).length).toBe(3);
    expect(await source_of('nothing:at/all')).toBeNull();
  });

  it('has a source for every row that an answer can name', async () => {
    const { rules } = await reference('en');
    for (const [crop, states] of Object.entries(rules.ladder)) {
      for (const [state, parts] of Object.entries(states)) {
        for (const [part, row] of Object.entries(parts)) {
          expect(await source_of(`ladder:${crop}/${part}/${state}`)).not.toBeNull();
          if (row.topic) expect(await source_of(`kitchen_safety:${row.topic}`)).not.toBeNull();
        }
      }
    }
    for (const { row } of [...rules.law, ...rules.eaters]) expect(await source_of(row)).not.toBeNull();
  });

  it('gives Kitchen its dishes, laws and limits', async () => {
    const kitchen = await kitchen_reference('de');
    expect(kitchen.dishes.length).toBeGreaterThan(60);
    expect(kitchen.dish_name('carrot_soup')).toBe('Möhrensuppe');
    const [treats] = kitchen.animal('laying_hen', 'treats_share');
    expect(treats?.unit).toMatch(/%/);
    const { rules } = await reference('de');
    for (const { row } of rules.law) expect(kitchen.law(row).rule).not.toBe('');
  });
});
