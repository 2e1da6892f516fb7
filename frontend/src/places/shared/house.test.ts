import 'fake-indexeddb/auto';
import { flushSync } from 'svelte';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { access } from '../../ledger';
import { house } from './house.svelte';
import { say, title_of } from './say';

const HOUSEHOLD = '0198a000-0000-7000-8000-000000000001';
const DEVICE = '0198a000-0000-7000-8000-000000000002';
const RUTH = '0198a000-0000-7000-8000-000000000003';
const CELLAR = '0198a000-0000-7000-8000-000000000004';

const json = (value: unknown, status = 200) =>
  new Response(JSON.stringify(value), { status, headers: { 'content-type': 'application/json' } });

/** The tables as they are built; in the browser they are files beside the app. */
const tables = import.meta.glob<object>('../../reference/built/*.json', { eager: true, import: 'default' });

/** A server that lets the phone in and is never heard of again: everything after is the phone's own. */
async function answer(path: string): Promise<Response> {
  const table = Object.entries(tables).find(([name]) => path.includes(name.slice(name.lastIndexOf('/'))));
  if (table) return json(table[1]);
  if (!path.endsWith('/api/v1/pair')) throw new TypeError('no signal');
  return json(
    {
      household: { id: HOUSEHOLD, name: 'Nether Hay', demo: false },
      device: { id: DEVICE, name: 'a phone', people: [RUTH] },
      minder: false,
      codes: { from: 1, to: 40 },
      last_no: 0,
      epoch: 1,
    },
    201,
  );
}

beforeEach(async () => {
  // The test's browser has no web locks: this window is alone.
  const locks = { request: (_name: string, _how: object, work: (lock: object) => unknown) => work({}) };
  Object.defineProperty(navigator, 'locks', { value: locks, configurable: true });
  vi.stubGlobal('fetch', (path: string) => answer(String(path)));
  const paired = await access().pair('K7MP-3QRS', 'a phone');
  if (!paired.ok) throw new Error(paired.why);
  await house.enter(paired.home);
  await house.edit('person', RUTH, { name: 'Ruth', role: 'keeper' });
  await house.edit('space', CELLAR, { name: 'Root cellar', kind: 'root_cellar', order: 0 });
  await vi.waitFor(() => expect(house.spaces).toHaveLength(1));
});
afterEach(async () => {
  await house.sign_out();
  vi.unstubAllGlobals();
});

const put_away = () =>
  house.record('put_away', {
    crop: 'carrot',
    variety: 'Long Ember',
    space: CELLAR,
    pack: 'sand',
    grams: 24_000,
    measured: 'weighed',
  });

test('what is put away is a lot at once, without a server', async () => {
  const kept = await put_away();
  expect(kept.ok).toBe(true);
  await vi.waitFor(() => expect(house.lots).toHaveLength(1));
  flushSync();
  expect(house.lots[0]).toMatchObject({
    crop: 'carrot',
    space: CELLAR,
    known: 'counted',
    shown: { grams: 24_000 },
  });
  expect(house.lots_in(CELLAR)).toHaveLength(1);
  expect(house.status.to_send).toBe(3);
});

test('a take lessens its lot, and struck out it is back', async () => {
  const lot = await put_away();
  if (!lot.ok) throw new Error(lot.why);
  const { id } = lot.value.written;
  const took = await house.record('take', { lot: id, grams: 2000, for: 'eat' });
  if (!took.ok) throw new Error(took.why);
  await vi.waitFor(() => expect(house.lot(id)?.shown.grams).toBe(22_000));
  await house.strike(took.value.written.id);
  await vi.waitFor(() => expect(house.lot(id)?.shown.grams).toBe(24_000));
});

test('what happened is told in words', async () => {
  const lot = await put_away();
  if (!lot.ok) throw new Error(lot.why);
  await vi.waitFor(() => expect(house.lots).toHaveLength(1));
  const took = await house.record('take', { lot: lot.value.written.id, grams: 3000, for: 'give' });
  if (!took.ok) throw new Error(took.why);
  const said = say(took.value.written);
  expect(title_of(said)).toBe('Took: Carrot, Long Ember');
  expect(said).toMatchObject({ detail: 'given away', amount: '3\u00a0kg' });
  expect(say(lot.value.written)).toMatchObject({
    verb: 'Put away',
    detail: 'Root cellar',
    amount: '24\u00a0kg',
  });
});

test('a kind of a newer version is kept whole and says so', () => {
  const written = {
    id: 'x',
    household: HOUSEHOLD,
    device: DEVICE,
    device_no: 9,
    person: RUTH,
    kind: 'lantern',
    schema: 1,
  };
  const line = { ...written, happened_at: '2026-01-13T17:00:00.000Z', dated: 'clock', body: {} } as const;
  expect(say(line).verb).toBe('Made by a newer version');
});

test('who is writing is a keeper on a keeper’s phone', async () => {
  await vi.waitFor(() => expect(house.writer?.name).toBe('Ruth'));
  expect(house.is_grown).toBe(true);
  expect(house.keepers_phone).toBe(true);
});

test('a start shows the lots kept last, until all lines are folded again', async () => {
  await put_away();
  await vi.waitFor(() => expect(house.lots).toHaveLength(1));
  const before = house.lots.map((lot) => ({ ...lot, history: [] }));
  const spied = vi.spyOn(house.ledger, 'keep_worked_out');
  await vi.waitFor(() => expect(spied).toHaveBeenCalled(), 9_000);
  await spied.mock.results[0]?.value;
  const { home } = house;
  if (!home) throw new Error('no home');
  await house.enter(home);
  expect(house.lines.size).toBe(0);
  expect(house.lots).toEqual(before);
  await vi.waitFor(() => expect(house.lines.size).toBe(3));
  expect(house.lots.map((lot) => ({ ...lot, history: [] }))).toEqual(before);
  expect(house.lots[0]?.history).toHaveLength(1);
}, 15_000);
