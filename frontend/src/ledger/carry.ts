/** Carrying unsent work out of the phone as one text, and back in: for the day the address changes or the phone is revoked. */
import { is_object, is_text, parse_json, read_all, type Json } from '../wire/json.ts';
import { read_written } from '../wire/written.ts';
import type { Deps } from './deps.ts';
import { Numbers } from './numbers.ts';
import { name_photos } from './photo_names.ts';
import { paint } from './records.ts';
import type { Draft, Written } from './shapes.ts';
import type { PhotoRow, ReadTx, StoreName, Tx } from './store.ts';
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
}

/** Waiting and refused lines as written, drafts, and photos the server does not have. */
export async function export_unsent(deps: Deps): Promise<string> {
  const carried = await deps.store.read(STORES, async (tx) => ({
    format: FORMAT,
    version: 1,
    household: deps.household,
    exported_at: utc_text(deps.clock.now()),
    lines: (await tx.all('outbox')).map((row) => row.written),
    refused: (await tx.all('tray')).filter((row) => row.settled === undefined),
    drafts: await tx.all('drafts'),
    photos: await unsent_photos(tx),
  }));
  return JSON.stringify(carried, null, 1);
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

/** How many lines came new. Throws `not_found` where the text is not one of ours for this household. */
export const import_unsent =
  (deps: Deps) =>
  async (text: string): Promise<number> => {
    const carried = read_carried(text, deps.household);
    if (carried === undefined) throw new LedgerTrouble('not_found');
    return deps.store.write(STORES, (tx) => put_all(tx, carried, deps.clock.now()), 'firm');
  };

async function put_all(tx: Tx, carried: Carried, at: number): Promise<number> {
  for (const draft of carried.drafts) {
    if ((await tx.get('drafts', draft.id)) === undefined) await tx.put('drafts', draft);
  }
  for (const photo of carried.photos) await put_photo(tx, photo, at);
  const numbers = await Numbers.of(tx);
  let fresh = 0;
  for (const written of [...carried.lines, ...carried.refused])
    fresh += await put_line(tx, numbers, written, at);
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
  return { lines, refused, photos, drafts };
}

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

/** As it was written, also its author and device: the server knows the line by its id. */
async function put_line(tx: Tx, numbers: Numbers, written: Written, at: number): Promise<0 | 1> {
  if ((await tx.get('entries', written.id)) !== undefined) return 0;
  await tx.put('entries', { id: written.id, written, standing: 'waiting' });
  await numbers.queue(written, at);
  await name_photos(tx, written, 'to_send');
  await paint(tx, written);
  return 1;
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
