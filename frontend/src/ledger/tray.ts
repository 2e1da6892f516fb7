/** Refused lines and the ways out. Nothing leaves by itself: a person mends, sends again, or lets go. */
import type { Deps } from './deps.ts';
import { same_written } from '../wire/written.ts';
import { as_line } from './lines.ts';
import { Numbers } from './numbers.ts';
import { name_photos, unname_photos } from './photo_names.ts';
import { paint } from './records.ts';
import type { Body, Id, Line, TrayLine, Written } from './shapes.ts';
import type { ReadTx, StoreName, TrayRow, Tx } from './store.ts';
import { LedgerTrouble } from './trouble.ts';

const STORES = [
  'tray',
  'entries',
  'outbox',
  'records',
  'photos',
  'pictures',
  'meta',
] as const satisfies readonly StoreName[];

/** What was erased is never taken again, under any wording. */
const is_erased = (row: TrayRow): boolean => row.refusal.code === 'erased';

/** Under a reused id another line stands. */
const may_keep_id = (row: TrayRow): boolean => !is_erased(row) && row.refusal.code !== 'id_reused';

export async function read_tray(tx: ReadTx): Promise<readonly TrayLine[]> {
  const rows = await tx.all('tray');
  return rows.map((row) => ({
    id: row.key,
    written: row.written,
    refusal: row.refusal,
    children: hanging_on(rows, row.id).map((child) => child.key),
    mendable: may_keep_id(row),
    ...(row.settled && { settled: row.settled }),
  }));
}

/** Open lines refused only because of that one, and those refused because of them. */
function hanging_on(rows: readonly TrayRow[], parent: Id): TrayRow[] {
  const found = new Map<string, TrayRow>();
  const parents = [parent];
  for (const id of parents) {
    for (const row of rows) {
      const hangs = row.settled === undefined && row.refusal.code === 'parent_refused' && row.id !== id;
      if (!hangs || found.has(row.key) || !names(row.written, id)) continue;
      found.set(row.key, row);
      parents.push(row.id);
    }
  }
  return [...found.values()];
}

/** Ids are long enough that finding one in the text is finding the reference. */
const names = (written: Written, id: Id): boolean => JSON.stringify(written).includes(id);

/**
 * The same id, another body, a new number; what hangs on it goes back with it, and the refused wording stays
 * readable. Where another line stands under the id, it is written anew under one of its own. Returns all that went
 * back, the mended one first.
 */
export const mend =
  (deps: Deps) =>
  (key: string, body: Body): Promise<readonly Line[]> =>
    deps.store.write(
      STORES,
      async (tx) => {
        const row = await open_row(tx, key);
        if (is_erased(row)) throw new LedgerTrouble('not_mendable');
        const numbers = await Numbers.of(tx);
        const anew = row.refusal.code === 'id_reused' || (await standing_there(tx, row)) !== undefined;
        const written: Written = {
          ...row.written,
          id: anew ? deps.mint_id() : row.id,
          device: numbers.device,
          device_no: numbers.next_device_no(),
          body,
        };
        const lines = await go_back(tx, numbers, { ...row, id: written.id, written }, deps.clock.now());
        await tx.put('tray', { ...row, settled: 'mended' });
        await numbers.keep();
        return lines;
      },
      'firm',
    );

/** The same wording once more. */
export const send_again =
  (deps: Deps) =>
  (key: string): Promise<readonly Line[]> =>
    deps.store.write(
      STORES,
      async (tx) => {
        const row = await open_row(tx, key);
        if (!may_keep_id(row)) throw new LedgerTrouble('not_mendable');
        const there = await standing_there(tx, row);
        if (there !== undefined && !same_written(there.written, row.written))
          throw new LedgerTrouble('not_mendable');
        const numbers = await Numbers.of(tx);
        // It came by another phone's hand after all: there is nothing left to send.
        const lines = there === undefined ? await go_back(tx, numbers, row, deps.clock.now()) : [there];
        await tx.put('tray', { ...row, settled: 'sent_again' });
        await numbers.keep();
        return lines;
      },
      'firm',
    );

/** To the outbox, and behind it those of the tray that were refused only because of it. */
async function go_back(tx: Tx, numbers: Numbers, row: TrayRow, at: number): Promise<Line[]> {
  const lines = [await queue_again(tx, numbers, row, at)];
  for (const child of hanging_on(await tx.all('tray'), row.id)) {
    lines.push(await queue_again(tx, numbers, child, at));
    await tx.put('tray', { ...child, settled: 'sent_again' });
  }
  return lines;
}

/** The line the server has under this id, as pulled. */
async function standing_there(tx: Tx, row: TrayRow): Promise<Line | undefined> {
  const entry = await tx.get('entries', row.id);
  return entry?.standing === 'sent' ? as_line(entry, undefined) : undefined;
}

async function open_row(tx: Tx, key: string): Promise<TrayRow> {
  const row = await tx.get('tray', key);
  if (row === undefined || row.settled !== undefined) throw new LedgerTrouble('not_found');
  return row;
}

async function queue_again(tx: Tx, numbers: Numbers, row: TrayRow, at: number): Promise<Line> {
  const held = await tx.get('entries', row.id);
  const entry = { ...held, id: row.id, written: row.written, standing: 'waiting' } as const;
  await tx.put('entries', entry);
  await numbers.queue(row.written, at, row.recovered);
  await name_photos(tx, row.written, 'to_send');
  await paint(tx, row.written);
  return as_line(entry, undefined);
}

/** By a person's word only. The wording stays readable here; the line counted nowhere and is shown nowhere else. */
export const drop =
  (deps: Deps) =>
  async (key: string): Promise<void> =>
    deps.store.write(
      STORES,
      async (tx) => {
        const row = await open_row(tx, key);
        await tx.put('tray', { ...row, settled: 'dropped' });
        const entry = await tx.get('entries', row.id);
        if (entry === undefined || entry.standing !== 'refused') return;
        await tx.delete('entries', row.id);
        await unname_photos(tx, row.written);
      },
      'firm',
    );
