import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DEVICE, HOUSEHOLD, let_in_store, RUNA, take } from './doubles.ts';
import { access, open, server, type Ledger } from './index.ts';
import { database_name, open_indexed_store } from './indexed_store.ts';
import { STORE_VERSION } from './store.ts';

vi.stubGlobal('__APP_BUILD__', '7');

let asked: string[] = [];
let answer: (path: string, body: string) => unknown = () => ({});

beforeEach(async () => {
  document.cookie = 'csrftoken=known';
  asked = [];
  answer = () => ({});
  vi.stubGlobal('fetch', async (path: string, init: RequestInit) => {
    asked.push(`${String(init.method)} ${path} ${String(new Headers(init.headers).get('X-Household'))}`);
    const text = JSON.stringify(answer(path, String(init.body)));
    return new Response(text, { headers: { 'content-type': 'application/json' } });
  });
});
afterEach(() => vi.unstubAllGlobals());

async function opened(): Promise<Ledger> {
  (await let_in_store(database_name(HOUSEHOLD))).close();
  vi.stubGlobal('__APP_BUILD__', '7');
  const found = await open(HOUSEHOLD);
  if (!found.ok) throw new Error(found.why);
  return found.ledger;
}

const now = '2026-11-25T09:24:54.000Z';

describe('a household opened in the browser', () => {
  it('keeps without the network, and sends when it may', async () => {
    const ledger = await opened();
    answer = (path, body) => {
      if (path.endsWith('/missing')) return { missing: [], erased: [] };
      if (!path.endsWith('/push')) return { rows: [], next: '1.0', more: false, head: '1.0', now };
      const { lines }: { lines: { written: { id: string } }[] } = JSON.parse(body);
      const receipts = lines.map(({ written }, at) => ({ id: written.id, result: 'accepted', seq: at + 1 }));
      return { receipts, now, clock_skew_ms: 0 };
    };
    const kept = await ledger.record(take());
    expect(kept.ok).toBe(true);
    expect(asked).toEqual([]);
    expect(await ledger.status()).toMatchObject({ to_send: 1 });
    expect(await ledger.sync_now()).toBe('done');
    expect(asked.slice(0, 2)).toEqual([
      `POST /api/v1/sync/push ${HOUSEHOLD}`,
      `GET /api/v1/sync/pull?after=0&limit=500 ${HOUSEHOLD}`,
    ]);
    expect(await ledger.status()).toMatchObject({ to_send: 0 });
    ledger.close();
  });

  it('asks who may write when it starts, and stops watching when told', async () => {
    const ledger = await opened();
    answer = (path) => {
      const device = { id: DEVICE, name: '', people: [RUNA] };
      const let_in = {
        household: { id: HOUSEHOLD, name: 'Invented', demo: false },
        device,
        minder: false,
        last_no: 0,
      };
      return path.endsWith('/session')
        ? { let_in, may: {}, now }
        : { rows: [], next: '1.0', more: false, head: '1.0', now };
    };
    const stop = ledger.start();
    await vi.waitFor(async () => expect(await ledger.people()).toEqual([RUNA]));
    stop();
    const before = asked.length;
    document.dispatchEvent(new Event('visibilitychange'));
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(asked).toHaveLength(before);
    ledger.close();
  });

  it('leaves nothing behind when signed out', async () => {
    const ledger = await opened();
    expect(await ledger.sign_out(true)).toEqual({ left: true });
    expect(asked).toContain(`POST /api/v1/sign-out ${HOUSEHOLD}`);
    expect((await indexedDB.databases()).map((database) => database.name)).not.toContain(
      database_name(HOUSEHOLD),
    );
    expect(await access().homes()).toEqual([]);
  });

  it('hazard 26: is not opened when a newer build wrote it', async () => {
    const name = database_name('newer');
    (await open_indexed_store(name, STORE_VERSION + 1)).close();
    expect(await open('newer')).toEqual({ ok: false, why: 'store_newer' });
  });

  it('the server is asked for the household that is open', async () => {
    const ledger = await opened();
    await server().send({ method: 'GET', path: '/api/v1/devices' });
    expect(asked.at(-1)).toBe(`GET /api/v1/devices ${HOUSEHOLD}`);
    ledger.close();
  });
});
