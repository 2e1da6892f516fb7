/**
 * Keeping what happened. One transaction holds the line, its outbox row, the photos it names and the step of its
 * draft; when it is complete, and not before, the line is kept.
 *
 * All that makes a line unique is fixed here: a resend is the same bytes.
 */
import type { Deps } from './deps.ts';
import { as_line } from './lines.ts';
import { Numbers, take_code } from './numbers.ts';
import { one_of } from './one.ts';
import { name_photos } from './photo_names.ts';
import { paint } from './records.ts';
import type { Body, DraftStep, Id, Line, NewEdit, NewEntry, Written } from './shapes.ts';
import { read_meta, type EntryRow, type StoreName, type Tx } from './store.ts';
import { moment_text, noon_text, utc_text } from './times.ts';
import { LedgerTrouble } from './trouble.ts';

const STORES = [
  'entries',
  'outbox',
  'records',
  'photos',
  'drafts',
  'meta',
] as const satisfies readonly StoreName[];

/**
 * All of them or none, read and written side by side: each request that waits for another costs a slow phone a
 * millisecond between the touch and "kept". Tried again after a lost connection it finds its own ids and writes nothing
 * twice.
 */
export const record_all =
  (deps: Deps) =>
  async (entries: readonly NewEntry[], draft?: DraftStep): Promise<readonly Line[]> => {
    const with_ids = entries.map((entry) => ({ ...entry, id: entry.id ?? deps.mint_id() }));
    const at = deps.clock.now();
    return deps.store.write(
      STORES,
      async (tx) => {
        const [numbers, writer, held] = await Promise.all([
          Numbers.of(tx),
          read_writer(tx),
          Promise.all(with_ids.map(({ id }) => tx.get('entries', id))),
        ]);
        const known = new Map(held.map((row) => [row?.id, row]));
        const rows: EntryRow[] = [];
        for (const entry of with_ids) {
          const row = known.get(entry.id) ?? (await write_line(deps, tx, numbers, writer, entry, at));
          if (!known.has(entry.id)) rows.push(row);
          known.set(entry.id, row);
        }
        await Promise.all([
          ...rows.map((row) => tx.put('entries', row)),
          ...rows.map((row) => numbers.queue(row.written, at)),
          numbers.keep(),
          step_draft(tx, draft, at),
        ]);
        for (const { written } of rows) {
          await name_photos(tx, written, 'to_send');
          await paint(tx, written);
        }
        return with_ids.flatMap(({ id }) => known.get(id) ?? []).map((row) => as_line(row, undefined));
      },
      'firm',
    );
  };

async function write_line(
  deps: Deps,
  tx: Tx,
  numbers: Numbers,
  writer: Id | undefined,
  entry: NewEntry & { readonly id: Id },
  at: number,
): Promise<EntryRow> {
  const person = entry.person ?? writer;
  if (person === undefined) throw new LedgerTrouble('not_signed_in');
  const written: Written = {
    id: entry.id,
    household: deps.household,
    device: numbers.device,
    device_no: numbers.next_device_no(),
    person,
    ...(entry.with && entry.with.length > 0 && { with: entry.with }),
    kind: entry.kind,
    schema: entry.schema ?? 1,
    happened_at: entry.day === undefined ? moment_text(deps.clock, at) : noon_text(deps.clock, entry.day),
    dated: entry.day === undefined ? 'clock' : 'person',
    body: await with_code(tx, entry),
    ...(entry.strikes !== undefined && { strikes: entry.strikes }),
    ...(entry.photos && entry.photos.length > 0 && { photos: entry.photos }),
  };
  return {
    id: written.id,
    written,
    standing: 'waiting',
    ...(entry.without_photo && { without_photo: true }),
  };
}

async function read_writer(tx: Tx): Promise<Id | undefined> {
  const people = await read_meta(tx, 'people');
  return people?.writer ?? people?.listed[0];
}

/** Block used up: the lot has no code until the server sets one. */
async function with_code(tx: Tx, entry: NewEntry): Promise<Body> {
  const number = entry.code && (await take_code(tx));
  return entry.code === undefined || number === undefined
    ? entry.body
    : { ...entry.body, code: entry.code(number) };
}

async function step_draft(tx: Tx, step: DraftStep | undefined, at: number): Promise<void> {
  if (step?.put !== undefined) await tx.put('drafts', { ...step.put, changed_at: utc_text(at) });
  if (step?.drop !== undefined) await tx.delete('drafts', step.drop);
}

/** Change fields of a record, or make it: `base_rev` is the server's revision this phone last saw. */
export const edit =
  (deps: Deps) =>
  async (change: NewEdit): Promise<Line> => {
    const { type, record, set, person, photos } = change;
    const base_rev = await deps.store.read(
      ['records'],
      async (tx) => (await tx.get('records', `${type}/${record}`))?.rev ?? 0,
    );
    const body = { type, record, base_rev, set };
    const more = { ...(person !== undefined && { person }), ...(photos && { photos }) };
    return one_of(await record_all(deps)([{ kind: 'edit', body, ...more }]));
  };

/** Strike a line out. Striking twice is harmless; striking a strike brings the first back. */
export const strike =
  (deps: Deps) =>
  async (id: Id, why?: string, person?: Id): Promise<Line> => {
    const body = why === undefined ? {} : { why };
    const entry = { kind: 'strike', strikes: id, body, ...(person !== undefined && { person }) };
    return one_of(await record_all(deps)([entry]));
  };
