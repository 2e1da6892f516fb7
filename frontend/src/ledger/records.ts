/** Records: the server's values, with this phone's edits painted over until they come back in the feed. */
import { read_edit, type Id, type Written } from '../wire/written.ts';
import type { EditOutcome } from '../wire/pull.ts';
import type { RecordNow } from './shapes.ts';
import type { ReadTx, RecordRow, Tx } from './store.ts';

export const record_key = (type: string, id: Id): string => `${type}/${id}`;

const blank = (type: string, id: Id, generation: number): RecordRow => ({
  key: record_key(type, id),
  type,
  id,
  values: {},
  rev: 0,
  field_revs: {},
  generation,
  painted: [],
});

/** An edit of this phone (or one healed by it) waits: its values are shown from now on. */
export async function paint(tx: Tx, written: Written): Promise<void> {
  const change = read_edit(written);
  if (change === undefined) return;
  const key = record_key(change.type, change.record);
  const row = (await tx.get('records', key)) ?? blank(change.type, change.record, -1);
  const others = row.painted.filter(({ edit }) => edit !== written.id);
  await tx.put('records', { ...row, painted: [...others, { edit: written.id, set: change.set }] });
}

/** Its result is known and is not in the feed: it was refused. A record that was nothing else goes. */
export async function unpaint(tx: Tx, written: Written): Promise<void> {
  const change = read_edit(written);
  const row = change && (await tx.get('records', record_key(change.type, change.record)));
  if (row === undefined) return;
  const painted = row.painted.filter(({ edit }) => edit !== written.id);
  if (row.rev === 0 && painted.length === 0) await tx.delete('records', row.key);
  else await tx.put('records', { ...row, painted });
}

/** The outcome of an edit came in the feed: the server's values win over the edit that made them. */
export async function settle(tx: Tx, outcome: EditOutcome, edit: Id, generation: number): Promise<void> {
  const { type, record, rev, field_revs } = outcome;
  const held = (await tx.get('records', record_key(type, record))) ?? blank(type, record, generation);
  const known =
    held.generation === generation ? held : { ...blank(type, record, generation), painted: held.painted };
  await tx.put('records', {
    ...known,
    values: { ...known.values, ...outcome.values },
    rev,
    field_revs: { ...known.field_revs, ...field_revs },
    painted: held.painted.filter((one) => one.edit !== edit),
  });
}

export function as_record(row: RecordRow): RecordNow {
  const pending = row.painted.flatMap(({ set }) => Object.keys(set));
  return {
    type: row.type,
    id: row.id,
    values: Object.assign({}, row.values, ...row.painted.map(({ set }) => set)),
    rev: row.rev,
    field_revs: row.field_revs,
    pending: [...new Set(pending)],
  };
}

export async function read_records(tx: ReadTx, type?: string): Promise<readonly RecordNow[]> {
  const rows = await tx.all('records');
  return rows.filter((row) => type === undefined || row.type === type).map(as_record);
}
