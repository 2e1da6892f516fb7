// @vitest-environment node
import 'fake-indexeddb/auto';
import { deleteDB, openDB } from 'idb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { DEVICE, fresh_name, json, let_in_store } from './doubles.ts';
import { hash_of } from './hashing.ts';
import { open_indexed_store } from './indexed_store.ts';
import { read_meta, STORE_NAMES, STORE_VERSION, type Store } from './store.ts';
import { LedgerTrouble } from './trouble.ts';

afterEach(() => vi.restoreAllMocks());

const draft = (id: string) => ({ id, kind: 'round', value: { lot: 4 }, changed_at: '' });
const drafts = (store: Store) => store.read(['drafts'], (tx) => tx.keys('drafts'));
const why = (act: Promise<unknown>): Promise<unknown> =>
  act.then(
    () => 'no trouble',
    (error: unknown) => (error instanceof LedgerTrouble ? error.why : error),
  );

/** The next transactions throw that, as a phone in the background does. */
function fail_next(name: string, times = 1): void {
  const begin = IDBDatabase.prototype.transaction;
  let left = times;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...given) {
    if (left-- > 0) throw new DOMException('gone', name);
    return begin.apply(this, given);
  });
}

describe('the store in the browser', () => {
  it('writes all of a transaction, or nothing', async () => {
    const store = await open_indexed_store(fresh_name());
    const act = store.write(['drafts', 'entries'], async (tx) => {
      await tx.put('drafts', draft('a'));
      throw new Error('half way');
    });
    await expect(act).rejects.toThrow('half way');
    expect(await drafts(store)).toEqual([]);
  });

  it('invariant 30: is told done only when the transaction is complete', async () => {
    const store = await open_indexed_store(fresh_name());
    const seen: string[] = [];
    const begin = IDBDatabase.prototype.transaction;
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...given) {
      const transaction = begin.apply(this, given);
      transaction.addEventListener('complete', () => seen.push('complete'));
      return transaction;
    });
    await store.write(['drafts'], (tx) => tx.put('drafts', draft('a')), 'firm').then(() => seen.push('told'));
    expect(seen).toEqual(['complete', 'told']);
  });

  it.each(['UnknownError', 'InvalidStateError', 'AbortError'])(
    'hazard 15: opens anew after %s and tries once more',
    async (name) => {
      const store = await open_indexed_store(fresh_name());
      fail_next(name);
      await store.write(['drafts'], (tx) => tx.put('drafts', draft('a')));
      expect(await drafts(store)).toEqual(['a']);
    },
  );

  it('hazard 15: asks for a new start when that fails too', async () => {
    const store = await open_indexed_store(fresh_name());
    fail_next('UnknownError', 2);
    expect(await why(store.write(['drafts'], (tx) => tx.put('drafts', draft('a'))))).toBe('store_closed');
    expect(await drafts(store)).toEqual([]);
  });

  it('hazard 16: fails loudly where a transaction waits for the network', async () => {
    const store = await open_indexed_store(fresh_name());
    const server = vi.fn(() => new Promise((resolve) => setTimeout(() => resolve(json({})), 20)));
    const act = store.write(['drafts'], async (tx) => {
      await tx.put('drafts', draft('a'));
      // eslint-disable-next-line ledger/no-foreign-await -- the very thing that must fail
      await server();
      await tx.put('drafts', draft('b'));
    });
    await expect(act).rejects.toThrow('ended while its work waited for something else');
    expect(server).toHaveBeenCalledOnce();
    expect(await drafts(store)).not.toContain('b');
  });

  it('hazard 17: gives bytes back as they were', async () => {
    const store = await open_indexed_store(fresh_name());
    const bytes = Uint8Array.from({ length: 5000 }, (_, at) => at % 251).buffer;
    await store.write(['pictures'], (tx) => tx.put('pictures', { key: 'x/full', bytes, type: 'image/jpeg' }));
    const row = await store.read(['pictures'], (tx) => tx.get('pictures', 'x/full'));
    expect(row?.bytes).toBeInstanceOf(ArrayBuffer);
    expect(hash_of(row?.bytes ?? new ArrayBuffer(0))).toBe(hash_of(bytes));
  });

  it('hazard 18: says that the phone is full', async () => {
    const store = await open_indexed_store(fresh_name());
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('full', 'QuotaExceededError');
    });
    expect(await why(store.write(['drafts'], (tx) => tx.put('drafts', draft('a'))))).toBe('store_full');
  });

  it('hazard 26: touches nothing of a store made by a newer build', async () => {
    const name = fresh_name();
    const newer = await open_indexed_store(name, STORE_VERSION + 1);
    await newer.write(['drafts'], (tx) => tx.put('drafts', draft('a')));
    newer.close();
    expect(await why(open_indexed_store(name))).toBe('store_newer');
    const again = await open_indexed_store(name, STORE_VERSION + 1);
    expect(await drafts(again)).toEqual(['a']);
  });

  it('gives way to a newer build in another window, and says so from then on', async () => {
    const name = fresh_name();
    const older = await open_indexed_store(name);
    const newer = await open_indexed_store(name, STORE_VERSION + 1);
    expect(await drafts(newer)).toEqual([]);
    expect(await why(drafts(older))).toBe('store_newer');
  });

  it('is not made anew after it was deleted in another window', async () => {
    const name = fresh_name();
    const store = await open_indexed_store(name);
    await deleteDB(name);
    expect(await why(drafts(store))).toBe('store_closed');
    expect((await indexedDB.databases()).map((database) => database.name)).not.toContain(name);
  });

  it('says which window stands in the way', async () => {
    const name = fresh_name();
    const stubborn = await openDB(name, STORE_VERSION);
    expect(await why(open_indexed_store(name, STORE_VERSION + 1))).toBe('store_blocked');
    stubborn.close();
  });

  it('adds stores to an older one and keeps what it holds', async () => {
    const name = fresh_name();
    const older = await openDB(name, 1, {
      upgrade: (database) => void database.createObjectStore('drafts', { keyPath: 'id' }),
    });
    await older.put('drafts', draft('a'));
    older.close();
    const store = await open_indexed_store(name, STORE_VERSION + 1);
    expect(await drafts(store)).toEqual(['a']);
    expect(await store.read(STORE_NAMES, (tx) => tx.count('outbox'))).toBe(0);
  });

  it('holds one phone a household', async () => {
    const store = await let_in_store();
    expect(await store.read(['meta'], (tx) => read_meta(tx, 'self'))).toMatchObject({
      device: DEVICE,
      next_no: 1,
    });
  });
});
