/** Two edits of one field: the later stands, the other is shown once. */
import type { Conflict } from './shapes.ts';
import type { ReadTx, Store } from './store.ts';

export async function read_conflicts(tx: ReadTx): Promise<readonly Conflict[]> {
  const rows = await tx.all('conflicts');
  return rows.filter((row) => !row.seen).map(({ key, seen, edit, ...rest }) => ({ id: key, ...rest }));
}

export async function see_conflict(store: Store, key: string): Promise<void> {
  await store.write(['conflicts'], async (tx) => {
    const row = await tx.get('conflicts', key);
    if (row !== undefined) await tx.put('conflicts', { ...row, seen: true });
  });
}
