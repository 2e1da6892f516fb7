/** A phone's disk on the real store, in an IndexedDB kept in memory. */
import { deleteDB } from 'idb';
import { open_indexed_store } from '../../frontend/src/ledger/indexed_store.ts';
import { STORE_NAMES, type Row, type Store, type StoreName } from '../../frontend/src/ledger/store.ts';
import type { PhoneDisk } from './phone.ts';

export class IndexedDisk implements PhoneDisk {
  readonly #name: string;
  readonly #looking: Store;
  readonly #opened: Store[] = [];

  private constructor(name: string, looking: Store) {
    this.#name = name;
    this.#looking = looking;
  }

  static async of(name: string): Promise<IndexedDisk> {
    return new IndexedDisk(name, await open_indexed_store(name));
  }

  async open(): Promise<Store> {
    const store = await open_indexed_store(this.#name);
    this.#opened.push(store);
    return store;
  }

  rows<S extends StoreName>(store: S): Promise<readonly Row<S>[]> {
    return this.#looking.read([store], (tx) => tx.all(store));
  }

  async copy(name: string): Promise<IndexedDisk> {
    const other = await IndexedDisk.of(`${this.#name}-${name}`);
    for (const store of STORE_NAMES) {
      const rows = await this.rows(store);
      await other.#looking.write([store], async (tx) => {
        for (const row of rows) await tx.put(store, row);
      });
    }
    return other;
  }

  async remove(): Promise<void> {
    for (const store of [this.#looking, ...this.#opened]) store.close();
    await deleteDB(this.#name);
  }
}
