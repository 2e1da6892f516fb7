/** Writing the rows of one page of the feed: every one of them, also those of this phone. */
import type { LineRow, Row, SheetRow } from '../wire/pull.ts';
import { settle } from './records.ts';
import { read_meta, type EntryRow, type Tx } from './store.ts';

/** Lines and sheets go in side by side; records one after another, since one page may change one of them twice. */
export async function put_rows(tx: Tx, rows: readonly Row[], generation: number): Promise<void> {
  const self = await read_meta(tx, 'self');
  const wrote_nothing = self?.next_outbox === 1;
  await Promise.all(
    rows.map((row) =>
      row.type === 'sheet' ? put_sheet(tx, row, generation) : put_line(tx, row, generation, wrote_nothing),
    ),
  );
  for (const row of rows) {
    if (row.type !== 'sheet' && row.outcome !== undefined)
      await put_outcome(tx, row, row.outcome, generation);
  }
}

/** On a phone that never wrote a line there is nothing of its own to keep beside one that comes. */
async function put_line(tx: Tx, row: LineRow, generation: number, wrote_nothing: boolean): Promise<void> {
  const held = wrote_nothing ? undefined : await tx.get('entries', row.written.id);
  await tx.put('entries', as_entry(row, held, generation));
}

function as_entry(row: LineRow, held: EntryRow | undefined, generation: number): EntryRow {
  const { written, seq, received_at, clock_skew_ms, body_hash } = row;
  return {
    id: written.id,
    written,
    // One that waits keeps its place in the outbox until its own receipt.
    standing: held?.standing === 'waiting' ? 'waiting' : 'sent',
    seq,
    generation,
    received_at,
    clock_skew_ms,
    body_hash,
    ...(held?.without_photo && { without_photo: true }),
  };
}

async function put_outcome(
  tx: Tx,
  { written }: LineRow,
  outcome: NonNullable<LineRow['outcome']>,
  generation: number,
): Promise<void> {
  const { type, record } = outcome;
  await settle(tx, outcome, written.id, generation);
  for (const conflict of outcome.conflicts) {
    const key = `${written.id}:${conflict.field}`;
    const seen = (await tx.get('conflicts', key))?.seen ?? false;
    await tx.put('conflicts', { ...conflict, key, type, record, edit: written.id, seen });
  }
}

async function put_sheet(tx: Tx, row: SheetRow, generation: number): Promise<void> {
  await tx.put('sheets', { ...row.sheet, seq: row.seq, generation });
}
