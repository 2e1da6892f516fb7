import { describe, expect, test } from 'vitest';
import built from '../../reference/built/rules.json';
import kitchen from '../../reference/built/kitchen_rows.json';
import type { Dish } from '../../reference';
import { is_spoilt } from '../../storekeeping/conditions';
import { uses_of } from '../../storekeeping/ladder';
import type { Rules } from '../../storekeeping/rules';
import { is_dish, of_table, own_dish, own_dishes } from './dish_kinds';
import { taking } from './dish_entries';
import { at_stake, dishes_that_rescue, states_on, type Ask, type DishKind, type InStore } from './dishes';

// What may go into a dish is the ladder's (fixtures/reference/ladder.csv, eaters.csv, each row with its source); weights of
// dishes are common practice, no source (fixtures/reference/dishes.csv).
const rules = built as unknown as Rules;
const table = kitchen.dishes as unknown as readonly Dish[];
const kinds = (people: number): readonly DishKind[] =>
  table.filter(is_dish).map((dish) => of_table(dish, people));

type Standing = InStore['lot']['standing'];
const seen = (finding: string, share: number | null, more = {}): Standing[number] => ({
  finding,
  entry: 'e',
  pieces: share === null ? null : 10,
  looked: share === null ? null : Math.round(10 / share),
  share,
  suspect: false,
  ...more,
});
const stored = (crop: string, loses: number | undefined, ...standing: Standing): InStore => ({
  crop,
  loses,
  lot: { id: `${crop}-lot`, crop, standing, food: { grams: 9000, pieces: 60 }, ratio: 150 },
});
const asks =
  (eaters: readonly string[] = []): Ask =>
  (crop, told) => ({ ...told, crop, eaters });
const rescued = (store: readonly InStore[], eaters: readonly string[] = [], own: readonly DishKind[] = []) =>
  dishes_that_rescue(rules, [...kinds(4), ...own], store, asks(eaters));
const ids = (store: readonly InStore[], eaters: readonly string[] = []) =>
  rescued(store, eaters).dishes.map(({ kind }) => kind.id);
const own = (id: string, step: 'raw' | 'cook', ...crops: readonly string[]): DishKind =>
  own_dish(id, { step, people: 4, uses: crops.map((crop) => ({ crop, grams: 500 })) }, 4);

describe('what is on the pieces of a lot', () => {
  test('some are worn, the others are sound; the worn come first', () => {
    expect(states_on(stored('carrot', 0, seen('shrivelled', 0.3)).lot)).toEqual([['shrivelled'], ['sound']]);
  });
  test('what nobody numbered, or what was on all, is on every piece', () => {
    const lot = stored('carrot', 0, seen('shrivelled', null), seen('sprouting', 0.2)).lot;
    expect(states_on(lot)).toEqual([['shrivelled', 'sprouting'], ['shrivelled']]);
    expect(states_on(stored('carrot', 0, seen('shrivelled', 1)).lot)).toEqual([['shrivelled']]);
  });
  test('a suspect is no food until somebody decides, and says nothing of the rest', () => {
    expect(states_on(stored('carrot', 0, seen('mould', 0.1, { suspect: true })).lot)).toEqual([['sound']]);
  });
});

describe('what is saved', () => {
  test('of a week of waiting as much as one dish takes; the dish that takes more of it goes first', () => {
    const { dishes } = rescued([stored('carrot', 700, seen('shrivelled', 0.3))]);
    expect(dishes[0]).toMatchObject({ kind: { id: 'carrot_soup' }, saves: 700 });
    expect(dishes.map(({ saves }) => saves)).toEqual(
      [...dishes.map(({ saves }) => saves)].sort((a, b) => b - a),
    );
  });
  test('no more than the dish takes, and for twice as many twice as much', () => {
    const store = [stored('carrot', 5000, seen('shrivelled', 0.3))];
    const soup = (people: number) =>
      dishes_that_rescue(rules, kinds(people), store, asks()).dishes.find(
        ({ kind }) => kind.id === 'carrot_soup',
      );
    expect(soup(4)?.saves).toBe(800);
    expect(soup(8)?.saves).toBe(1600);
  });
  test('where no sheet came yet, what shows signs and was numbered', () => {
    expect(at_stake(stored('carrot', undefined, seen('shrivelled', 0.25)))).toBe(1500);
    expect(at_stake(stored('carrot', undefined, seen('shrivelled', null)))).toBe(0);
    expect(at_stake(stored('carrot', 0, seen('shrivelled', 0.25)))).toBe(0);
  });
  test('what keeps for months is put by, by its own rule, and is no dish', () => {
    const all = kinds(4).map(({ id }) => id);
    for (const put_by of ['kraut_crock', 'freeze_roots', 'dry_apples', 'apple_peel_jelly'])
      expect(all).not.toContain(put_by);
    expect(all).toContain('carrot_soup');
  });
  test('what loses nothing needs no rescue', () => {
    expect(ids([stored('carrot', undefined)])).toEqual([]);
  });
  test('a dish that is for the most part not in the store is none; what else it wants is told', () => {
    const store = [stored('apple', 300, seen('shrivelled', 0.3))];
    expect(ids(store)).not.toContain('parsnip_soup');
    const crumble = rescued([stored('cabbage', 900)]).dishes.find(({ kind }) => kind.id === 'cabbage_stew');
    expect(crumble?.missing.map(({ crop }) => crop)).toEqual(['onion', 'apple']);
  });
});

describe('no dish says it more mildly than the ladder', () => {
  test('raw slaw takes no cabbage that is for cooking', () => {
    expect(ids([stored('cabbage', 900)])).toContain('raw_slaw');
    expect(ids([stored('cabbage', 900, seen('mould', null))])).toEqual([]);
    expect(ids([stored('cabbage', 900, seen('specked', null))])).not.toContain('raw_slaw');
    expect(ids([stored('cabbage', 900, seen('specked', null))])).toContain('cabbage_stew');
  });
  test('no bruised apple in any dish of the list or of ones own: patulin outlives heat (US FDA)', () => {
    const store = [stored('apple', 900, seen('bruise', null))];
    expect(rescued(store, [], [own('mine', 'cook', 'apple')]).dishes).toEqual([]);
  });
  test('a crop that begins at cook is in no raw dish of ones own', () => {
    for (const crop of ['potato', 'bean_dry']) {
      expect(
        rescued([stored(crop, 500)], [], [own('mine', 'raw', crop)]).dishes.map(({ kind }) => kind.id),
      ).not.toContain('mine');
    }
  });
  test('a crop no table knows is in none: not known, never fine', () => {
    expect(rescued([stored('of_ones_own', 500)], [], [own('mine', 'cook', 'of_ones_own')]).dishes).toEqual(
      [],
    );
  });
  test('no nuts at table: no dish with nuts is offered, not even one they would have to be got for', () => {
    const store = [stored('carrot', 700, seen('old', null)), stored('egg', 0)];
    expect(ids(store)).toContain('carrot_cake');
    const told = rescued(store, ['no_nuts']);
    expect(told.dishes.map(({ kind }) => kind.id)).not.toContain('carrot_cake');
    expect(told.left_out.map(({ kind }) => kind.id)).toContain('carrot_cake');
    expect(told.left_out[0]?.not_for).toEqual([{ eater: 'no_nuts', row: 'eaters:nuts_none' }]);
  });
  test('under one year: a dish of carrots says that it is not for them', () => {
    const soup = rescued([stored('carrot', 700, seen('old', null))], ['infant']).dishes.find(
      ({ kind }) => kind.id === 'carrot_soup',
    );
    expect(soup?.not_for).toEqual([{ eater: 'infant', row: 'eaters:nitrate_infant' }]);
  });

  test('whatever lies in the store, each thing a dish takes the ladder leaves for that step', () => {
    const random = numbers(20_261_125);
    const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
    const crops = Object.keys(rules.crops);
    const findings = Object.keys(rules.findings);
    const listed = kinds(5);
    const eaters = ['infant', 'small_child', 'pregnant', 'old', 'ill'];
    let taken_at_all = 0;
    for (let n = 0; n < 60; n += 1) {
      const store = Array.from({ length: 4 }, () => {
        const standing = Array.from({ length: Math.floor(random() * 3) }, () =>
          seen(pick(findings), pick([null, 0.1, 0.5, 1])),
        );
        return stored(pick(crops), 400, ...standing);
      });
      const at_table = [pick(eaters)];
      const ask: Ask = (crop, told) => ({ ...told, crop, eaters: at_table });
      const of_ones_own = store.flatMap(({ crop }) =>
        (['raw', 'cook'] as const).map((step) => own(`${crop} ${step}`, step, crop)),
      );
      const everything = [...listed, ...of_ones_own];
      for (const { kind, taken } of dishes_that_rescue(rules, everything, store, ask).dishes) {
        for (const one of taken) {
          taken_at_all += 1;
          const question = {
            crop: one.crop,
            findings: one.findings,
            ...(one.part === null ? {} : { part: one.part }),
          };
          const uses = uses_of(rules, question);
          expect(uses.known, `${kind.id} ${one.crop} ${one.findings.join()}`).toBe(true);
          expect(
            uses.steps.map(({ step }) => step),
            `${kind.id} ${one.crop} ${one.findings.join()}`,
          ).toContain(kind.step);
          if (!kind.own) expect(one.findings.some((finding) => is_spoilt(rules, finding))).toBe(false);
        }
      }
    }
    expect(taken_at_all).toBeGreaterThan(100);
  });
});

describe('dishes of ones own', () => {
  const record = (values: Record<string, unknown>) =>
    [{ type: 'dish', id: 'd', values }] as unknown as Parameters<typeof own_dishes>[0];
  test('are scaled from those they are for to those at table', () => {
    const [dish] = own_dishes(record({ step: 'cook', people: 6, uses: [{ crop: 'carrot', grams: 900 }] }), 4);
    expect(dish).toMatchObject({
      own: true,
      step: 'cook',
      uses: [{ crop: 'carrot', grams: 600, states: null }],
    });
  });
  test('of another shape, from a newer build, rescue nothing and break nothing', () => {
    const [dish] = own_dishes(record({ step: 'flambe', uses: 'soon' }), 4);
    expect(dish).toMatchObject({ step: 'cook', uses: [] });
    expect(own_dishes(record({ archived: true }), 4)).toEqual([]);
  });
  test('take what the ladder leaves, whatever was seen', () => {
    const store = [stored('carrot', 700, seen('sprouting', null))];
    expect(rescued(store, [], [own('mine', 'cook', 'carrot')]).dishes.map(({ kind }) => kind.id)).toContain(
      'mine',
    );
  });
});

test('a dish made is one take a lot, guessed, from what is on the turn; peel leaves no piece', () => {
  const one = { lot: 'a', crop: 'carrot', findings: ['sound'], saves: 0, rows: [] };
  expect(
    taking([
      { ...one, part: null, grams: 300.4 },
      { ...one, part: null, grams: 200 },
      { ...one, part: 'peel', grams: 50 },
    ]),
  ).toEqual([
    { kind: 'take', body: { lot: 'a', for: 'eat', grams: 500, measured: 'guessed', turning: true } },
  ]);
});

/** Mulberry32 (public domain, T. Ettinger), so that a run can be run again. */
function numbers(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
