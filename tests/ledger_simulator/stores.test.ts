// @vitest-environment node
/** The store in memory stands for the real one: both are held to the same. */
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import type { OutboxRow, Store } from '../../frontend/src/ledger/store.ts';
import { open_indexed_store } from '../../frontend/src/ledger/indexed_store.ts';
import { Disk, MemoryStore } from './memory_store.ts';

let made = 0;
const STORES: Readonly<Record<string, () => Promise<Store>>> = {
  memory: async () => new MemoryStore(new Disk()),
  IndexedDB: () => open_indexed_store(`contract-${String((made += 1))}`),
};

const row = (no: number): OutboxRow => ({
  no,
  id: `id ${String(no)}`,
  recorded_at: no,
  written: {
    id: `id ${String(no)}`,
    household: 'h',
    device: 'd',
    device_no: no,
    person: 'p',
    kind: 'take',
    schema: 1,
    happened_at: '',
    dated: 'clock',
    body: { grams: no },
  },
});
const numbers = (store: Store): Promise<readonly number[]> =>
  store.read(['outbox'], (tx) => tx.keys('outbox'));

describe.each(Object.entries(STORES))('the store in %s', (_name, open) => {
  it('gives rows in the order of their keys, from behind one, so many at most', async () => {
    const store = await open();
    await store.write(['outbox'], async (tx) => {
      for (const no of [10, 2, 33, 1]) await tx.put('outbox', row(no));
    });
    expect(await numbers(store)).toEqual([1, 2, 10, 33]);
    const some = await store.read(['outbox'], (tx) => tx.all('outbox', 1, 2));
    expect(some).toEqual([row(2), row(10)]);
    expect(await store.read(['outbox'], (tx) => tx.count('outbox'))).toBe(4);
  });

  it('shows a transaction its own writes, and nobody else before it is complete', async () => {
    const store = await open();
    const seen = store.write(['outbox'], async (tx) => {
      await tx.put('outbox', row(1));
      await tx.put('outbox', row(2));
      await tx.delete('outbox', 1);
      return [
        await tx.get('outbox', 1),
        await tx.get('outbox', 2),
        await tx.count('outbox'),
        await tx.keys('outbox'),
      ];
    });
    expect(await seen).toEqual([undefined, row(2), 1, [2]]);
    expect(await numbers(store)).toEqual([2]);
  });

  it('writes all or nothing', async () => {
    const store = await open();
    const broken = store.write(['outbox', 'drafts'], async (tx) => {
      await tx.put('outbox', row(1));
      throw new Error('half way');
    });
    await expect(broken).rejects.toThrow('half way');
    expect(await numbers(store)).toEqual([]);
  });

  it('runs transactions one after another', async () => {
    const store = await open();
    const add = () =>
      store.write(['outbox'], async (tx) => {
        const keys = await tx.keys('outbox');
        await tx.put('outbox', row((keys.at(-1) ?? 0) + 1));
      });
    await Promise.all(Array.from({ length: 20 }, add));
    expect(await numbers(store)).toHaveLength(20);
  });

  it('keeps a copy that no reference reaches', async () => {
    const store = await open();
    const body: { grams: number } = { grams: 1 };
    await store.write(['outbox'], (tx) =>
      tx.put('outbox', { ...row(1), written: { ...row(1).written, body } }),
    );
    try {
      body.grams = 2;
    } catch {
      // Frozen: as good as a copy.
    }
    const [kept] = await store.read(['outbox'], (tx) => tx.all('outbox'));
    expect(kept?.written.body).toEqual({ grams: 1 });
  });
});
