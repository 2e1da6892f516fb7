/** Lines as screens and the fold see them, and the words' counts of the status line. */
import type { Id, Line, Sheet, Status } from './shapes.ts';
import { read_meta, type EntryRow, type ReadTx, type StoreName } from './store.ts';
import { utc_text } from './times.ts';

/** A number of another generation (before a reset) is void. */
export function as_line(row: EntryRow, generation: number | undefined): Line {
  return {
    written: row.written,
    standing: row.standing,
    ...(row.seq !== undefined && row.generation === generation && { seq: row.seq }),
    ...(row.received_at !== undefined && { received_at: row.received_at }),
    ...(row.clock_skew_ms !== undefined && { clock_skew_ms: row.clock_skew_ms }),
    ...(row.without_photo && { without_photo: true }),
  };
}

export const generation_of = async (tx: ReadTx): Promise<number> =>
  (await read_meta(tx, 'feed'))?.generation ?? 0;

/** So many at a time, between which a window can answer a touch. */
const AT_A_TIME = 1000;

export async function read_lines(tx: ReadTx): Promise<readonly Line[]> {
  const generation = await generation_of(tx);
  const lines: Line[] = [];
  let after: Id | undefined;
  for (;;) {
    const rows = await tx.all('entries', after, AT_A_TIME);
    for (const row of rows) lines.push(as_line(row, generation));
    after = rows.at(-1)?.id;
    if (rows.length < AT_A_TIME) return lines;
  }
}

export async function read_sheets(tx: ReadTx): Promise<readonly Sheet[]> {
  const cursor = (await read_meta(tx, 'feed'))?.cursor?.seq ?? 0;
  const waiting = await tx.count('outbox');
  return (await tx.all('sheets')).map(({ key, kind, as_of, made_at, inputs, content, seq }) => ({
    key,
    kind,
    as_of,
    made_at,
    inputs,
    content,
    behind: waiting > 0 || cursor > Math.max(as_of, seq),
  }));
}

export const STATUS_STORES = ['outbox', 'photos', 'tray', 'meta'] as const satisfies readonly StoreName[];

/** From the stores alone. */
export async function read_status(tx: ReadTx): Promise<Status> {
  const outbox = await tx.all('outbox');
  const photos = await tx.all('photos');
  const tray = await tx.all('tray');
  const feed = await read_meta(tx, 'feed');
  const halt = await read_meta(tx, 'halt');
  const kept_safe = await read_meta(tx, 'kept_safe');
  const oldest = Math.min(...outbox.map((row) => row.recorded_at));
  return {
    to_send: outbox.length,
    photos_to_send: photos.filter((photo) => photo.standing === 'to_send').length,
    needs_you: tray.filter((row) => row.settled === undefined).length,
    ...(outbox.length > 0 && { oldest: utc_text(oldest) }),
    ...(feed?.last_pull !== undefined && { last_pull: utc_text(feed.last_pull) }),
    ...(halt?.why && { halt: halt.why }),
    ...(halt?.why && halt.detail !== undefined && { halt_detail: halt.detail }),
    ...(kept_safe?.granted === false && { not_kept_safe: true }),
  };
}
