/** Pictures on the phone: kept at capture with their draft, shown, and thinned once the server has them. */
import type { Deps } from './deps.ts';
import { drop_photo } from './photo_names.ts';
import type { Transport } from './ports.ts';
import { photo_path } from './send_photos.ts';
import type { Hash, PhotoBytes, PhotoState, ReadyPhoto } from './shapes.ts';
import type { PhotoRow, Store } from './store.ts';
import { LedgerTrouble } from './trouble.ts';

type Size = 'full' | 'thumbnail';

const picture_key = (hash: Hash, size: Size): string => `${hash}/${size}`;

/** Storage full: pictures the server has make room, then once more. */
export async function with_room<T>(store: Store, write: () => Promise<T>): Promise<T> {
  try {
    return await write();
  } catch (error) {
    if (!(error instanceof LedgerTrouble) || error.why !== 'store_full') throw error;
  }
  await make_room(store, Infinity);
  return write();
}

export const keep_photo =
  (deps: Deps) =>
  async (photo: ReadyPhoto, draft: string): Promise<Hash> => {
    await write_photo(deps, photo, draft);
    return photo.hash;
  };

async function write_photo(deps: Deps, photo: ReadyPhoto, draft: string): Promise<void> {
  const { hash, type, bytes, thumbnail, taken_at, undecoded } = photo;
  await deps.store.write(
    ['photos', 'pictures'],
    async (tx) => {
      const known = await tx.get('photos', hash);
      const row: PhotoRow = known ?? {
        hash,
        type,
        size: bytes.byteLength,
        standing: 'drafted',
        draft,
        named_by: [],
        taken_at,
        kept_at: deps.clock.now(),
        whole: true,
        ...(undecoded && { undecoded }),
      };
      await tx.put('photos', { ...row, whole: true });
      await tx.put('pictures', { key: picture_key(hash, 'full'), bytes, type });
      if (thumbnail)
        await tx.put('pictures', {
          key: picture_key(hash, 'thumbnail'),
          bytes: thumbnail,
          type: 'image/jpeg',
        });
    },
    'firm',
  );
}

/** Taken back out of its draft; one that a line names stays. */
export const forget_photo =
  (deps: Deps) =>
  async (hash: Hash): Promise<void> =>
    deps.store.write(['photos', 'pictures'], async (tx) => {
      const photo = await tx.get('photos', hash);
      if (photo?.named_by.length === 0) await drop_photo(tx, hash);
    });

export const photos_of_draft =
  (deps: Deps) =>
  async (draft: string): Promise<readonly Hash[]> => {
    const photos = await deps.store.read(['photos'], (tx) => tx.all('photos'));
    const taken = photos.filter((photo) => photo.draft === draft).sort((a, b) => a.kept_at - b.kept_at);
    return taken.map((photo) => photo.hash);
  };

export const photo_state =
  (deps: Deps) =>
  async (hash: Hash): Promise<PhotoState> => {
    const photo = await deps.store.read(['photos'], (tx) => tx.get('photos', hash));
    return photo === undefined ? 'elsewhere' : state_of(photo);
  };

function state_of(photo: PhotoRow): PhotoState {
  switch (photo.standing) {
    case 'drafted':
    case 'refused':
      return photo.undecoded ? 'undecoded' : photo.standing;
    case 'to_send':
    case 'held':
      return photo.undecoded ? 'undecoded' : 'to_send';
    case 'asked':
    case 'sent':
      return photo.whole ? 'sent' : 'elsewhere';
    case 'broken':
      return 'missing';
  }
}

/** From the phone, else from the server; a thumbnail that was fetched stays. undefined: not to be had now. */
export const look_at =
  (deps: Deps, transport: Transport) =>
  async (hash: Hash, size: Size): Promise<PhotoBytes | undefined> => {
    const held = await read_picture(deps.store, hash, size);
    if (held !== undefined) return held;
    const fetched = await fetch_picture(transport, hash, size);
    if (fetched === undefined) return read_picture(deps.store, hash, size === 'full' ? 'thumbnail' : 'full');
    if (size === 'thumbnail') await keep_thumbnail(deps.store, fetched);
    return fetched;
  };

async function read_picture(store: Store, hash: Hash, size: Size): Promise<PhotoBytes | undefined> {
  const row = await store.read(['pictures'], (tx) => tx.get('pictures', picture_key(hash, size)));
  return row && { hash, type: row.type, bytes: row.bytes };
}

async function fetch_picture(transport: Transport, hash: Hash, size: Size): Promise<PhotoBytes | undefined> {
  const path = size === 'full' ? photo_path(hash) : `${photo_path(hash)}?size=thumb`;
  const reply = await transport.send({ method: 'GET', path });
  if (reply?.status !== 200 || reply.bytes === undefined || !/^image\//i.test(reply.content_type))
    return undefined;
  return { hash, type: reply.content_type, bytes: reply.bytes };
}

/** A convenience: where there is no room for it, it is fetched again. */
async function keep_thumbnail(store: Store, { hash, bytes, type }: PhotoBytes): Promise<void> {
  try {
    await store.write(['pictures'], (tx) =>
      tx.put('pictures', { key: picture_key(hash, 'thumbnail'), bytes, type }),
    );
  } catch (error) {
    if (!(error instanceof LedgerTrouble)) throw error;
  }
}

/**
 * Let whole pictures go that the server has, the oldest first, until `bytes` are free; thumbnails stay. Unsent
 * ones are never touched. Returns how many bytes went.
 */
export async function make_room(store: Store, bytes: number): Promise<number> {
  return store.write(['photos', 'pictures'], async (tx) => {
    const sent = (await tx.all('photos')).filter((photo) => photo.standing === 'sent' && photo.whole);
    let gone = 0;
    for (const photo of sent.sort((a, b) => a.kept_at - b.kept_at)) {
      if (gone >= bytes) break;
      await tx.delete('pictures', picture_key(photo.hash, 'full'));
      await tx.put('photos', { ...photo, whole: false });
      gone += photo.size;
    }
    return gone;
  });
}

const MOST_KEPT = 300_000_000;
const MOST_SHARE = 0.6;

/** After a cycle: keep to 300 MB, and to 60 % of what the browser grants. */
export async function thin(store: Store, estimate: { usage?: number; quota?: number }): Promise<void> {
  const photos = await store.read(['photos'], (tx) => tx.all('photos'));
  const kept = photos.reduce((sum, photo) => sum + (photo.whole ? photo.size : 0), 0);
  const over = Math.max(kept - MOST_KEPT, (estimate.usage ?? 0) - MOST_SHARE * (estimate.quota ?? Infinity));
  if (over > 0) await make_room(store, over);
}
