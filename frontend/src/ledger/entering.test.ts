// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import type { Home } from './access.ts';
import {
  DEVICE,
  fresh_name,
  HOUSEHOLD,
  html,
  json,
  problem,
  RUNA,
  SetClock,
  take,
  test_phone,
  TIBOR,
} from './doubles.ts';
import { found, hear_who_may_write, open_demo, pair, write_let_in } from './entering.ts';
import { forget_home, put_home, read_home, read_homes } from './homes.ts';
import { open_indexed_store } from './indexed_store.ts';
import { one_of } from './one.ts';
import type { Reply, Request } from './ports.ts';
import { read_meta, type Store } from './store.ts';

const told = (more: object = {}) => ({
  household: { id: HOUSEHOLD, name: 'Invented', demo: false },
  device: { id: DEVICE, name: 'by the door', people: [RUNA, TIBOR] },
  minder: false,
  codes: { from: 41, to: 80 },
  last_no: 0,
  epoch: 1,
  ...more,
});

function door(answer: (request: Request) => Reply | undefined) {
  const name = fresh_name();
  const homes: Home[] = [];
  const sent: Request[] = [];
  const deps = {
    transport: {
      send: async (request: Request) => {
        sent.push(request);
        return answer(request);
      },
    },
    clock: new SetClock(),
    open_store: () => open_indexed_store(name),
    put_home: async (home: Home) => void homes.push(home),
  };
  return { deps, homes, sent, store: () => open_indexed_store(name) };
}

const meta = async (store: Store) => ({
  self: await store.read(['meta'], (tx) => read_meta(tx, 'self')),
  people: await store.read(['meta'], (tx) => read_meta(tx, 'people')),
  codes: await store.read(['meta'], (tx) => read_meta(tx, 'codes')),
});

describe('getting in', () => {
  it('by a typed code writes who this phone is, and the household is found from then on', async () => {
    const { deps, homes, sent, store } = door(() => json(told(), 201));
    const paired = await pair(deps)('k7pt 3qxw', 'by the door');
    expect(paired).toEqual({ ok: true, home: one_of(homes) });
    expect(homes).toEqual([
      {
        household: HOUSEHOLD,
        name: 'Invented',
        device: DEVICE,
        people: [RUNA, TIBOR],
        opened_at: '2026-11-25T09:24:53.123Z',
      },
    ]);
    expect(sent).toMatchObject([
      { method: 'POST', path: '/api/v1/pair', body: '{"code":"k7pt 3qxw","name":"by the door"}' },
    ]);
    expect(await meta(await store())).toEqual({
      self: { household: HOUSEHOLD, device: DEVICE, next_no: 1, next_outbox: 1 },
      people: { listed: [RUNA, TIBOR], minder: false },
      codes: { blocks: [{ next: 41, to: 80 }], given_to: 80 },
    });
  });

  it.each([
    ['code_wrong', 422, 'wrong_code'],
    ['code_spent', 410, 'spent'],
    ['too_many_tries', 429, 'refused'],
  ])('%s is told as such', async (code, status, why) => {
    const { deps, homes } = door(() => problem(status, code));
    expect(await pair(deps)('x', 'y')).toEqual({ ok: false, why, detail: `${code}, in words` });
    expect(homes).toEqual([]);
  });

  it.each([undefined, html(), json({ hello: 'there' })])(
    'no answer of ours lets nobody in',
    async (reply) => {
      const { deps, homes } = door(() => reply);
      expect(await pair(deps)('x', 'y')).toEqual({ ok: false, why: 'no_answer' });
      expect(homes).toEqual([]);
    },
  );

  it('the invented household is marked so', async () => {
    const { deps, homes } = door(() =>
      json(told({ household: { id: HOUSEHOLD, name: 'Invented', demo: true } }), 201),
    );
    await open_demo(deps)();
    expect(homes).toMatchObject([{ demo: true }]);
  });

  it("one's own household is asked for as told", async () => {
    const { deps, sent } = door(() => json(told(), 201));
    const asked = {
      household: { name: 'Ours', zone: 'Europe/Vienna' },
      keeper: 'Runa',
      phone: 'by the door',
    };
    expect(await found(deps)(asked)).toMatchObject({ ok: true });
    expect(JSON.parse(String(sent[0]?.body))).toEqual(asked);
  });

  it('hazard 29: signing in again keeps all that waits, and numbers go on', async () => {
    const phone = await test_phone();
    await phone.keep(take(), take());
    const let_in = {
      household: HOUSEHOLD,
      name: '',
      device: DEVICE,
      people: [RUNA],
      demo: false,
      minder: false,
      last_no: 0,
      codes: { from: 1, to: 40 },
    };
    await write_let_in(phone.store, let_in);
    expect(await phone.rows('outbox')).toHaveLength(2);
    expect(one_of(await phone.keep(take())).written).toMatchObject({ device: DEVICE, device_no: 3 });
  });

  it('as another device it takes that one its codes, and numbers go on', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    const let_in = {
      household: HOUSEHOLD,
      name: '',
      device: 'new',
      people: [RUNA],
      demo: false,
      minder: false,
      last_no: 0,
      codes: { from: 81, to: 120 },
    };
    await write_let_in(phone.store, let_in);
    expect((await meta(phone.store)).codes).toEqual({ blocks: [{ next: 81, to: 120 }], given_to: 120 });
    expect(one_of(await phone.keep(take())).written).toMatchObject({ device: 'new', device_no: 2 });
  });

  it('hazard 19: a store that was lost does not give its numbers again', async () => {
    const { deps, store } = door(() => json(told({ last_no: 812 }), 201));
    await pair(deps)('x', 'y');
    expect((await meta(await store())).self).toMatchObject({ next_no: 813 });
  });
});

describe('who may write on this phone', () => {
  const session = (more: object = {}) => ({
    send: async () => json({ let_in: told(more), may: {}, now: '' }),
  });

  it('is heard from the server; a writer who is listed no more is not the writer', async () => {
    const phone = await test_phone();
    await phone.store.write(['meta'], (tx) =>
      tx.put('meta', { name: 'people', value: { listed: [RUNA, TIBOR], minder: false, writer: TIBOR } }),
    );
    const device = { id: DEVICE, name: '', people: [RUNA] };
    expect(await hear_who_may_write({ store: phone.store, transport: session({ device }) })).toBe(true);
    expect((await meta(phone.store)).people).toEqual({ listed: [RUNA], minder: false });
  });

  it('is not taken from what is said of another phone, or by nobody', async () => {
    const phone = await test_phone();
    const other = { id: 'another', name: '', people: [RUNA] };
    expect(await hear_who_may_write({ store: phone.store, transport: session({ device: other }) })).toBe(
      false,
    );
    expect(await hear_who_may_write({ store: phone.store, transport: { send: async () => html() } })).toBe(
      false,
    );
    expect(await hear_who_may_write({ store: phone.store, transport: { send: async () => undefined } })).toBe(
      false,
    );
    expect((await meta(phone.store)).people?.listed).toEqual([RUNA, TIBOR]);
  });
});

describe('homes', () => {
  it('are listed, the last opened first, and forgotten', async () => {
    const home = (household: string, opened_at: string): Home => ({
      household,
      name: household,
      device: 'd',
      people: [],
      opened_at,
    });
    await put_home(home('a', '2026-11-01T00:00:00.000Z'));
    await put_home(home('b', '2026-11-02T00:00:00.000Z'));
    expect((await read_homes()).map((one) => one.household)).toEqual(['b', 'a']);
    await forget_home('b');
    expect(await read_home('b')).toBeUndefined();
    expect(await read_home('a')).toMatchObject({ name: 'a' });
  });
});
