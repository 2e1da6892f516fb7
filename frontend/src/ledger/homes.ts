/** The households this phone holds: a small database of its own, so that one is found before any is open. */
import { openDB, type IDBPDatabase } from 'idb';
import type { Home } from './access.ts';
import type { Id } from './shapes.ts';

const NAME = 'rounds';

async function with_homes<T>(act: (database: IDBPDatabase) => Promise<T>): Promise<T> {
  const database = await openDB(NAME, 1, {
    upgrade: (fresh) => void fresh.createObjectStore('homes', { keyPath: 'household' }),
  });
  try {
    return await act(database);
  } finally {
    database.close();
  }
}

/** The last opened first. */
export async function read_homes(): Promise<readonly Home[]> {
  const homes: readonly Home[] = await with_homes((database) => database.getAll('homes'));
  return [...homes].sort((a, b) => (a.opened_at < b.opened_at ? 1 : -1));
}

export async function read_home(household: Id): Promise<Home | undefined> {
  return with_homes((database) => database.get('homes', household));
}

export async function put_home(home: Home): Promise<void> {
  await with_homes((database) => database.put('homes', home));
}

export async function forget_home(household: Id): Promise<void> {
  await with_homes((database) => database.delete('homes', household));
}
