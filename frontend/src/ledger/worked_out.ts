/**
 * What screens worked out of all lines, as text, so that a start need not read them all first. It stands under a mark
 * of everything it hangs on in the store; where the mark is another one, it is as if nothing had been kept.
 */
import { read_meta, type ReadTx, type Store, type StoreName } from './store.ts';

/** `lines` are as many as there were then; `text` says where everything stood that changes lines. */
export interface Mark {
  readonly lines: number;
  readonly text: string;
}

const STORES = ['entries', 'outbox', 'tray', 'meta'] as const satisfies readonly StoreName[];

/** No line comes, goes, or changes its standing or time without moving one of these. */
async function mark_now(tx: ReadTx): Promise<Mark> {
  const self = await read_meta(tx, 'self');
  const feed = await read_meta(tx, 'feed');
  const lines = await tx.count('entries');
  const counts = [lines, await tx.count('outbox'), await tx.count('tray')];
  const text = JSON.stringify([
    ...[feed?.generation, feed?.cursor?.epoch, feed?.cursor?.seq],
    ...[self?.device, self?.next_no, self?.next_outbox],
    ...counts,
  ]);
  return { lines, text };
}

export const mark_of = (store: Store): Promise<Mark> => store.read(STORES, mark_now);

/** The text kept by the same rules and settings (`of`), where no line has changed since. */
export const read_worked_out = (store: Store, of: string): Promise<string | undefined> =>
  store.read(STORES, async (tx) => {
    const kept = await read_meta(tx, 'worked_out');
    if (kept?.of !== of || kept.mark !== (await mark_now(tx)).text) return undefined;
    return kept.text;
  });

/** Kept in place of what was there, unless a line changed since the mark was taken. */
export const keep_worked_out = (store: Store, mark: Mark, of: string, text: string): Promise<boolean> =>
  store.write(STORES, async (tx) => {
    if (mark.text !== (await mark_now(tx)).text) return false;
    await tx.put('meta', { name: 'worked_out', value: { mark: mark.text, of, text } });
    return true;
  });
