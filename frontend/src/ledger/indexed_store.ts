/** The store in the browser: IndexedDB, one database a household. */
import { openDB, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { KEY_PATHS, STORE_NAMES, STORE_VERSION } from './store.ts';
import type { Key, ReadTx, Row, Store, StoreName, Tx } from './store.ts';
import { as_trouble, is_lost, LedgerTrouble } from './trouble.ts';

export const database_name = (household: string): string => `rounds-${household}`;

type Transaction<M extends IDBTransactionMode> = IDBPTransaction<unknown, string[], M>;

/** Opens, or says `store_newer` (made by a later build: nothing is touched) or `store_blocked`. */
export async function open_indexed_store(name: string, version = STORE_VERSION): Promise<Store> {
  const store = new IndexedStore(name, version);
  await store.open();
  return store;
}

class IndexedStore implements Store {
  readonly #name: string;
  readonly #version: number;
  #database: Promise<IDBPDatabase> | undefined;
  #deleted = false;

  constructor(name: string, version: number) {
    this.#name = name;
    this.#version = version;
  }

  async open(): Promise<void> {
    try {
      await this.#connection();
    } catch (error) {
      throw as_trouble(error);
    }
  }

  read<T>(stores: readonly StoreName[], work: (tx: ReadTx) => Promise<T>): Promise<T> {
    return this.#twice((database) => {
      const transaction = database.transaction([...stores], 'readonly');
      return whole(transaction, () => work(reading(transaction)));
    });
  }

  write<T>(stores: readonly StoreName[], work: (tx: Tx) => Promise<T>, firm?: 'firm'): Promise<T> {
    return this.#twice((database) => {
      const durability = firm === 'firm' ? 'strict' : 'relaxed';
      const transaction = database.transaction([...stores], 'readwrite', { durability });
      return whole(transaction, () => work(writing(transaction)));
    });
  }

  close(): void {
    const database = this.#database;
    this.#database = undefined;
    database?.then((open) => open.close()).catch(() => undefined);
  }

  /** A connection lost in the background is opened anew and the whole transaction tried once more. */
  async #twice<T>(act: (database: IDBPDatabase) => Promise<T>): Promise<T> {
    try {
      return await act(await this.#connection());
    } catch (error) {
      if (!is_lost(error)) throw as_trouble(error);
      this.close();
    }
    try {
      return await act(await this.#connection());
    } catch (error) {
      throw as_trouble(error);
    }
  }

  #connection(): Promise<IDBPDatabase> {
    if (this.#deleted) return Promise.reject(new LedgerTrouble('store_closed'));
    const opening = (this.#database ??= this.#open());
    opening.catch(() => {
      if (this.#database === opening) this.#database = undefined;
    });
    return opening;
  }

  #open(): Promise<IDBPDatabase> {
    return new Promise((resolve, reject) => {
      let given_up = false;
      openDB(this.#name, this.#version, {
        upgrade: add_stores,
        blocked: () => {
          given_up = true;
          reject(new LedgerTrouble('store_blocked'));
        },
        blocking: (_version, to_version) => {
          // Another window has a newer build, or leaves the household: never stand in its way.
          this.#deleted = to_version === null;
          this.close();
        },
        terminated: () => this.close(),
      }).then((database) => {
        if (given_up) database.close();
        else resolve(database);
      }, reject);
    });
  }
}

/** Upgrades only add. */
function add_stores(database: IDBPDatabase): void {
  for (const name of STORE_NAMES) {
    if (!database.objectStoreNames.contains(name))
      database.createObjectStore(name, { keyPath: KEY_PATHS[name] });
  }
}

/** Resolves with the work's result when the transaction is complete; otherwise nothing was written. */
async function whole<T>(transaction: Transaction<IDBTransactionMode>, work: () => Promise<T>): Promise<T> {
  let ended = false;
  // An error of it is heard below: it must not count as unhandled in the meantime.
  transaction.done.then(() => (ended = true)).catch(() => undefined);
  try {
    const result = await work();
    await transaction.done;
    return result;
  } catch (error) {
    // Complete before its work was: a fault of ours, and no reason to try again.
    if (ended)
      throw new TypeError('A transaction ended while its work waited for something else.', { cause: error });
    abort(transaction);
    throw transaction.error ?? error;
  }
}

function abort(transaction: Transaction<IDBTransactionMode>): void {
  try {
    transaction.abort();
  } catch {
    // It had ended by itself.
  }
}

function reading(transaction: Transaction<IDBTransactionMode>): ReadTx {
  return {
    async get<S extends StoreName>(name: S, key: Key<S>): Promise<Row<S> | undefined> {
      return transaction.objectStore(name).get(key);
    },
    async all<S extends StoreName>(name: S, after?: Key<S>, limit?: number): Promise<readonly Row<S>[]> {
      const range = after === undefined ? null : IDBKeyRange.lowerBound(after, true);
      return transaction.objectStore(name).getAll(range, limit);
    },
    async keys<S extends StoreName>(name: S): Promise<readonly Key<S>[]> {
      return (await transaction.objectStore(name).getAllKeys()) as readonly Key<S>[];
    },
    count: (name) => transaction.objectStore(name).count(),
  };
}

function writing(transaction: Transaction<'readwrite'>): Tx {
  return {
    ...reading(transaction),
    async put(name, row) {
      await transaction.objectStore(name).put(row);
    },
    async delete(name, key) {
      await transaction.objectStore(name).delete(key);
    },
  };
}
