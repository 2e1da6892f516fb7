import { beforeAll, expect, test } from 'vitest';
import { kitchen_reference, reference, type KitchenReference } from '../../reference';
import type { Rules } from '../../storekeeping/rules';
import type { Fact } from '../../storekeeping/state';
import { heaps_of, heaps_to_turn } from '../shared/heaps';
import { buckets_of, grams_of_buckets, heap_now, on_heap } from './heaps';

let tables: KitchenReference;
let rules: Rules;
beforeAll(async () => {
  tables = await kitchen_reference('en');
  ({ rules } = await reference('en'));
});

const TODAY = '2026-11-25';
const record = (id: string, fills_from: string, fills_until?: string) => ({
  type: 'heap',
  id,
  rev: 1,
  values: { name: id, fills_from, ...(fills_until ? { fills_until } : {}) },
});
const HEAPS = heaps_of([record('old', '2026-06-01', '2026-09-30'), record('new', '2026-10-01')] as never);
const scrap = (day: string, crop: string | null, grams: number, findings: readonly string[] = ['sound']) => ({
  way: 'compost' as const,
  day,
  crop,
  grams,
  findings: [...findings],
});
const work = (day: string, body: object): Fact => ({
  id: `${day} ${JSON.stringify(body)}`,
  kind: 'heap',
  person: 'tom',
  when_ms: 0,
  day,
  body: { heap: 'new', ...body },
  flags: [],
});
const now = (went: readonly ReturnType<typeof scrap>[], facts: readonly Fact[] = []) => {
  const heap = HEAPS.find(({ id }) => id === 'new');
  if (!heap) throw new Error('no heap');
  return heap_now(
    heap,
    { heaps: HEAPS, went, facts, crop: (crop) => crop, today: TODAY, rules },
    tables.heap_values,
  );
};

test('what goes to compost goes on the heap that was filled that day', () => {
  const of = (day: string) =>
    HEAPS.filter((heap) => on_heap(scrap(day, null, 1), heap, HEAPS)).map(({ id }) => id);
  expect(of('2026-09-30')).toEqual(['old']);
  expect(of('2026-10-01')).toEqual(['new']);
  expect(of('2026-05-01')).toEqual([]);
});

test('trimmings alone are wet and green, and straw puts them right', () => {
  const wet = now([scrap('2026-11-01', 'cabbage', 10_000)]);
  expect(wet.look).toBe('wet_green');
  const buckets = buckets_of(wet, tables.heap_values, 'straw');
  expect(buckets).toBeGreaterThan(1);
  const grams = grams_of_buckets(tables.heap_values, 'straw', buckets ?? 0);
  const mended = now(
    [scrap('2026-11-01', 'cabbage', 10_000)],
    [work('2026-11-02', { did: 'added', material: 'straw', grams })],
  );
  expect(mended.look).toBe('right');
});

test('cardboard alone is too brown', () => {
  expect(now([], [work('2026-11-02', { did: 'added', material: 'cardboard', grams: 5000 })]).look).toBe(
    'brown',
  );
});

test('a heap is turned two weeks after it was turned last, or begun', () => {
  expect(now([]).turn_on).toBe('2026-10-15');
  expect(now([], [work('2026-11-02', { did: 'turned' })]).turn_on).toBe('2026-11-16');
});

test('a heap that is being filled is for no bed yet', () => {
  expect(now([scrap('2026-11-01', 'carrot', 500)]).usable_from).toBeUndefined();
  const old = HEAPS.find(({ id }) => id === 'old');
  const told = {
    heaps: HEAPS,
    went: [scrap('2026-09-20', 'carrot', 500)],
    facts: [],
    crop: (crop: string) => crop,
    today: TODAY,
    rules,
  };
  expect(old && heap_now(old, told, tables.heap_values).usable_from).toBe('2027-01-18');
});

test('a heap that is ripe wants no turning', () => {
  const old = HEAPS.find(({ id }) => id === 'old');
  const told = { heaps: HEAPS, went: [], facts: [], crop: (one: string) => one, rules };
  const on = (today: string) => old && heap_now(old, { ...told, today }, tables.heap_values).turn_on;
  expect(on('2026-09-01')).toBe('2026-06-15');
  expect(on('2026-12-25')).toBeUndefined();
});

test('a heap is a chore on its day, and turned it is none', () => {
  const records = [record('new', '2026-10-01'), record('ripe', '2026-01-01', '2026-06-01')] as never;
  expect(heaps_to_turn(records, [], '2026-10-14')).toEqual([]);
  expect(heaps_to_turn(records, [], '2026-10-15').map(({ key }) => key)).toEqual([
    'turn_heap/new/2026-10-15',
  ]);
  expect(heaps_to_turn(records, [work('2026-10-15', { did: 'turned' })], '2026-10-20')).toEqual([]);
});

test('a heap is marked by what went on it in its days, weighed or not, and by nothing else', () => {
  const bad = scrap('2026-10-02', 'onion', 300, ['white_rot']);
  expect(now([bad]).taken.map(({ disease, sure, day }) => [disease, sure, day])).toEqual([
    ['white_rot', true, '2026-10-02'],
  ]);
  expect(now([{ ...bad, grams: null as never }]).taken).toHaveLength(1);
  expect(now([{ ...bad, day: '2026-09-30' }]).taken).toEqual([]);
  expect(now([{ ...bad, way: 'bin' as never }]).taken).toEqual([]);
});
