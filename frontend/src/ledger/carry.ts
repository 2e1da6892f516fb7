/** Carrying unsent work out of the phone as one text, and back in: for the day the address changes or the phone is revoked. */
import { is_object, is_text, parse_json, read_all, type Json } from '../wire/json.ts';
import { read_written } from '../wire/written.ts';
import type { Deps } from './deps.ts';
import { Numbers } from './numbers.ts';
import { name_photos } from './photo_names.ts';
import { paint } from './records.ts';
import type { Draft, Id, Written } from './shapes.ts';
import { read_meta, type EntryRow, type PhotoRow, type ReadTx, type StoreName, type Tx } from './store.ts';
import { utc_text } from './times.ts';
import { LedgerTrouble } from './trouble.ts';

const FORMAT = 'winter-rounds-unsent';
const STORES = [
  'entries',
  'outbox',
  'records',
  'tray',
  'drafts',
  'photos',
  'pictures',
  'meta',
] as const satisfies readonly StoreName[];

interface CarriedPhoto {
  readonly hash: string;
  readonly type: string;
  readonly taken_at: string;
  readonly draft?: string;
  readonly base64: string;
}

interface Carried {
  readonly lines: readonly Written[];
  readonly refused: readonly Written[];
  readonly drafts: readonly Draft[];
  readonly photos: readonly CarriedPhoto[];
  /** How far the clock was off that dated a line, server less phone, where that phone knew it. [ms] */
  readonly skews: Readonly<Record<Id, number>>;
}

/** Waiting and refused lines as written, drafts, and photos the server does not have. */
export async function export_unsent(deps: Deps): Promise<string> {
  const carried = await deps.store.read(STORES, async (tx) => {
    const waiting = await tx.all('outbox');
    const refused = (await tx.all('tray')).filter((row) => row.settled === undefined);
    const skew = await own_skew(tx);
    const skew_of = ({ id, recovered }: (typeof waiting)[number] | (typeof refused)[number]) =>
      [id, recovered?.clock_skew_ms ?? skew] as const;
    return {
      format: FORMAT,
      version: 1,
      household: deps.household,
      exported_at: utc_text(deps.clock.now()),
      lines: waiting.map((row) => row.written),
      refused,
      drafts: await tx.all('drafts'),
      photos: await unsent_photos(tx),
      skews: Object.fromEntries([...waiting, ...refused].map(skew_of).filter(([, ms]) => ms !== undefined)),
    };
  });
  return JSON.stringify(carried, null, 1);
}

/** What was measured of this phone's clock when its last line was taken. */
async function own_skew(tx: ReadTx): Promise<number | undefined> {
  const device = (await read_meta(tx, 'self'))?.device;
  let last: EntryRow | undefined;
  for (const row of await tx.all('entries')) {
    const own = row.written.device === device && row.clock_skew_ms !== undefined;
    if (own && row.written.device_no > (last?.written.device_no ?? 0)) last = row;
  }
  return last?.clock_skew_ms;
}

async function unsent_photos(tx: ReadTx): Promise<readonly CarriedPhoto[]> {
  const found: CarriedPhoto[] = [];
  for (const { hash, type, taken_at, standing, draft } of await tx.all('photos')) {
    const picture = standing === 'sent' ? undefined : await tx.get('pictures', `${hash}/full`);
    if (picture)
      found.push({ hash, type, taken_at, base64: to_base64(picture.bytes), ...(draft && { draft }) });
  }
  return found;
}

/** The lines that came new. Throws `not_found` where the text is not one of ours for this household. */
export const import_unsent =
  (deps: Deps) =>
  async (text: string): Promise<readonly Id[]> => {
    const carried = read_carried(text, deps.household);
    if (carried === undefined) throw new LedgerTrouble('not_found');
    return deps.store.write(STORES, (tx) => put_all(tx, carried, deps.clock.now()), 'firm');
  };

async function put_all(tx: Tx, carried: Carried, at: number): Promise<readonly Id[]> {
  for (const draft of carried.drafts) {
    if ((await tx.get('drafts', draft.id)) === undefined) await tx.put('drafts', draft);
  }
  for (const photo of carried.photos) await put_photo(tx, photo, at);
  const numbers = await Numbers.of(tx);
  const fresh: Id[] = [];
  for (const written of [...carried.lines, ...carried.refused]) {
    if (await put_line(tx, numbers, written, carried.skews[written.id], at)) fresh.push(written.id);
  }
  await numbers.keep();
  return fresh;
}

function read_carried(text: string, household: string): Carried | undefined {
  const carried = parse_json(text);
  if (!is_object(carried) || carried['format'] !== FORMAT || carried['household'] !== household)
    return undefined;
  const lines = read_all(carried['lines'], read_written);
  const refused = read_all(carried['refused'], read_refused);
  const photos = read_all(carried['photos'], read_photo);
  const drafts = read_all(carried['drafts'], read_draft);
  if (lines === undefined || refused === undefined || photos === undefined || drafts === undefined)
    return undefined;
  return { lines, refused, photos, drafts, skews: read_skews(carried['skews']) };
}

/** A file made before they were carried has none. */
const read_skews = (value: Json | undefined): Readonly<Record<Id, number>> =>
  is_object(value)
    ? Object.fromEntries(
        Object.entries(value).filter((pair): pair is [Id, number] => typeof pair[1] === 'number'),
      )
    : {};

const read_refused = (value: Json): Written | undefined =>
  is_object(value) ? read_written(value['written']) : undefined;

function read_photo(value: Json): CarriedPhoto | undefined {
  if (!is_object(value)) return undefined;
  const { hash, type, taken_at, base64, draft } = value;
  if (!is_text(hash) || !is_text(type) || !is_text(taken_at) || !is_text(base64)) return undefined;
  return { hash, type, taken_at, base64, ...(is_text(draft) && { draft }) };
}

function read_draft(value: Json): Draft | undefined {
  if (!is_object(value)) return undefined;
  const { id, kind, changed_at } = value;
  if (!is_text(id) || !is_text(kind) || !is_text(changed_at)) return undefined;
  return { id, kind, changed_at, value: value['value'] ?? null };
}

/**
 * As it was written, also its author and device: the server knows the line by its id, so the phone it came from may send
 * it too. Of another phone it goes as `recovered`, with the skew of the clock that dated it, not of this one.
 */
async function put_line(
  tx: Tx,
  numbers: Numbers,
  written: Written,
  skew: number | undefined,
  at: number,
): Promise<boolean> {
  if ((await tx.get('entries', written.id)) !== undefined) return false;
  await tx.put('entries', { id: written.id, written, standing: 'waiting' });
  const own = written.device === numbers.device;
  await numbers.queue(written, at, own ? undefined : { clock_skew_ms: skew ?? 0 });
  await name_photos(tx, written, 'to_send');
  await paint(tx, written);
  return true;
}

async function put_photo(tx: Tx, photo: CarriedPhoto, at: number): Promise<void> {
  const { hash, type, taken_at, base64, draft } = photo;
  if ((await tx.get('photos', hash)) !== undefined) return;
  const bytes = from_base64(base64);
  const row: PhotoRow = {
    hash,
    type,
    taken_at,
    size: bytes.byteLength,
    standing: 'drafted',
    named_by: [],
    kept_at: at,
    whole: true,
    ...(draft !== undefined && { draft }),
  };
  await tx.put('photos', row);
  await tx.put('pictures', { key: `${hash}/full`, bytes, type });
}

function to_base64(bytes: ArrayBuffer): string {
  let text = '';
  for (const byte of new Uint8Array(bytes)) text += String.fromCharCode(byte);
  return btoa(text);
}

function from_base64(base64: string): ArrayBuffer {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  return bytes.buffer;
}
