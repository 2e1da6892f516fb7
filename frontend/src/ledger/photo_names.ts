/** Which lines name a photo, and what that makes of it. */
import type { Id, Written } from './shapes.ts';
import type { PhotoRow, PhotoStanding, Tx } from './store.ts';

/** The line names these photos: they leave their draft and wait for it (`to_send`), or with it (`held`). */
export async function name_photos(tx: Tx, written: Written, standing: 'to_send' | 'held'): Promise<void> {
  for (const hash of written.photos ?? []) {
    const photo = await tx.get('photos', hash);
    if (photo === undefined) continue;
    const { draft, ...rest } = photo;
    const named_by = photo.named_by.includes(written.id) ? photo.named_by : [...photo.named_by, written.id];
    await tx.put('photos', { ...rest, named_by, standing: await moved(tx, photo, written.id, standing) });
  }
}

/** A photo that another line, not refused, names too is not held back by this one. */
async function moved(tx: Tx, photo: PhotoRow, by: Id, to: 'to_send' | 'held'): Promise<PhotoStanding> {
  const waits = photo.standing === 'drafted' || photo.standing === 'to_send' || photo.standing === 'held';
  if (!waits) return photo.standing;
  if (to === 'to_send') return to;
  for (const id of photo.named_by) {
    if (id !== by && (await tx.get('entries', id))?.standing !== 'refused') return 'to_send';
  }
  return 'held';
}

/** The line is gone for good: photos nobody else names go with it. */
export async function unname_photos(tx: Tx, written: Written): Promise<void> {
  for (const hash of written.photos ?? []) {
    const photo = await tx.get('photos', hash);
    if (photo === undefined) continue;
    const named_by = photo.named_by.filter((id) => id !== written.id);
    if (named_by.length > 0) await tx.put('photos', { ...photo, named_by });
    else await drop_photo(tx, hash);
  }
}

export async function drop_photo(tx: Tx, hash: string): Promise<void> {
  await tx.delete('photos', hash);
  await tx.delete('pictures', `${hash}/full`);
  await tx.delete('pictures', `${hash}/thumbnail`);
}
