/** A store in memory with the semantics of the real one: transactions one after another, all or nothing. */
import type { Key, ReadTx, Row, Store, StoreName, Tx } from '../../frontend/src/ledger/store.ts';
import type { PhoneDisk } from './phone.ts';

type Tables = { readonly [S in StoreName]: Map<Key<S>, Row<S>> };

/** What outlives a restart of the phone. */
export class Disk {
  readonly tables: Tables = {
    entries: new Map(),
    outbox: new Map(),
    records: new Map(),
    sheets: new Map(),
    drafts: new Map(),
    photos: new Map(),
    pictures: new Map(),
    tray: new Map(),
    conflicts: new Map(),
    meta: new Map(),
  };

  /** Every row of a store, in order of key. */
  rows<S extends StoreName>(store: S): Row<S>[] {
    return in_order(this.tables[store]).map(([, row]) => row);
  }

  /** The same content on another phone: a backup put back on a second one. */
  copy(): Disk {
    const other = new Disk();
    for (const name of Object.keys(this.tables) as StoreName[]) copy_table(this.tables, other.tables, name);
    return other;
  }
}

function copy_table<S extends StoreName>(from: Tables, to: Tables, name: S): void {
  for (const [key, row] of from[name]) to[name].set(key, row);
}

const KEYS: { readonly [S in StoreName]: (row: Row<S>) => Key<S> } = {
  entries: (row) => row.id,
  outbox: (row) => row.no,
  records: (row) => row.key,
  sheets: (row) => row.key,
  drafts: (row) => row.id,
  photos: (row) => row.hash,
  pictures: (row) => row.key,
  tray: (row) => row.key,
  conflicts: (row) => row.key,
  meta: (row) => row.name,
};

export class MemoryStore implements Store {
  readonly #disk: Disk;
  #last: Promise<unknown> = Promise.resolve();

  constructor(disk: Disk) {
    this.#disk = disk;
  }

  read<T>(_stores: readonly StoreName[], work: (tx: ReadTx) => Promise<T>): Promise<T> {
    return this.#queued(() => work(new MemoryTx(this.#disk.tables)));
  }

  write<T>(_stores: readonly StoreName[], work: (tx: Tx) => Promise<T>): Promise<T> {
    return this.#queued(async () => {
      const tx = new MemoryTx(this.#disk.tables);
      const result = await work(tx);
      await this.complete(tx);
      return result;
    });
  }

  protected async complete(tx: MemoryTx): Promise<void> {
    tx.commit();
  }

  close(): void {
    // Nothing to let go of.
  }

  #queued<T>(act: () => Promise<T>): Promise<T> {
    const turn = this.#last.then(act, act);
    this.#last = turn.catch(() => undefined);
    return turn;
  }
}

type Changes = { readonly [S in StoreName]: Map<Key<S>, Row<S> | undefined> };

export class MemoryTx implements Tx {
  readonly #tables: Tables;
  readonly #changes: Changes = {
    entries: new Map(),
    outbox: new Map(),
    records: new Map(),
    sheets: new Map(),
    drafts: new Map(),
    photos: new Map(),
    pictures: new Map(),
    tray: new Map(),
    conflicts: new Map(),
    meta: new Map(),
  };

  constructor(tables: Tables) {
    this.#tables = tables;
  }

  async get<S extends StoreName>(store: S, key: Key<S>): Promise<Row<S> | undefined> {
    return this.#changes[store].has(key) ? this.#changes[store].get(key) : this.#tables[store].get(key);
  }

  async all<S extends StoreName>(store: S, after?: Key<S>, limit?: number): Promise<readonly Row<S>[]> {
    const rows = in_order(this.#merged(store)).filter(([key]) => after === undefined || key > after);
    return rows.slice(0, limit).map(([, row]) => row);
  }

  async keys<S extends StoreName>(store: S): Promise<readonly Key<S>[]> {
    return in_order(this.#merged(store)).map(([key]) => key);
  }

  async count(store: StoreName): Promise<number> {
    return this.#merged(store).size;
  }

  async put<S extends StoreName>(store: S, row: Row<S>): Promise<void> {
    this.#changes[store].set(KEYS[store](row), frozen(row));
  }

  async delete<S extends StoreName>(store: S, key: Key<S>): Promise<void> {
    this.#changes[store].set(key, undefined);
  }

  commit(...only: readonly StoreName[]): void {
    const all = Object.keys(KEYS) as StoreName[];
    for (const name of only.length > 0 ? only : all) this.#commit(name);
  }

  /** Are rows of these stores written in it? */
  changes(...stores: readonly StoreName[]): boolean {
    return stores.every((name) => this.#changes[name].size > 0);
  }

  #commit<S extends StoreName>(store: S): void {
    for (const [key, row] of this.#changes[store]) {
      if (row === undefined) this.#tables[store].delete(key);
      else this.#tables[store].set(key, row);
    }
  }

  #merged<S extends StoreName>(store: S): Map<Key<S>, Row<S>> {
    const changes = this.#changes[store];
    if (changes.size === 0) return this.#tables[store];
    const merged = new Map(this.#tables[store]);
    for (const [key, row] of changes) {
      if (row === undefined) merged.delete(key);
      else merged.set(key, row);
    }
    return merged;
  }
}

function in_order<K extends string | number, V>(table: Map<K, V>): [K, V][] {
  return [...table].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
}

/** A stored copy can never be changed through a reference. */
function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value) || value instanceof ArrayBuffer)
    return value;
  for (const inner of Object.values(value)) frozen(inner);
  return Object.freeze(value);
}

/** A phone's disk in memory. */
export class MemoryDisk implements PhoneDisk {
  readonly #disk: Disk;
  readonly #open: (disk: Disk, turn: () => Promise<void>) => Store;

  constructor(
    disk: Disk,
    open: (disk: Disk, turn: () => Promise<void>) => Store = (own) => new MemoryStore(own),
  ) {
    this.#disk = disk;
    this.#open = open;
  }

  async open(turn: () => Promise<void>): Promise<Store> {
    return this.#open(this.#disk, turn);
  }

  async rows<S extends StoreName>(store: S): Promise<readonly Row<S>[]> {
    return this.#disk.rows(store);
  }

  async copy(): Promise<PhoneDisk> {
    return new MemoryDisk(this.#disk.copy(), this.#open);
  }
}
