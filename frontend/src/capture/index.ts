/** From the camera to a picture that may be kept: what screens import. */
import type { ReadyPhoto } from '../ledger/index.ts';
import { hash_of } from '../ledger/hashing.ts';
import { browser_drawing, type Decoded, type Drawing } from './drawing.ts';
import { has_metadata, is_heic, read_size, type Size } from './segments.ts';

export type Captured =
  | { readonly ok: true; readonly photo: ReadyPhoto }
  /** `empty`: nothing was taken; `too_large`: over what may be sent; `spoiled`: cannot be read, or came out wrong. */
  | { readonly ok: false; readonly why: 'empty' | 'too_large' | 'spoiled' };

const LONGEST_PX = 1600;
const THUMBNAIL_PX = 320;
const QUALITY = 0.8;
const THUMBNAIL_QUALITY = 0.7;
/** What the server takes of one photo. */
const MOST_BYTES = 12_000_000;
const GRID = 8;
/** Mean difference of a colour, of 255, between what was drawn and what came out: JPEG keeps well below it. */
const MOST_DIFFERENCE = 24;
const MOST_SKEW = 0.03;

/**
 * Size to 1600 px, drop metadata, make a thumbnail of 320 px, name by hash. Nothing is written yet. A picture this
 * phone cannot read (HEIC, on most) is kept as it is and marked `undecoded`: the server may read it.
 */
export async function capture(
  file: Blob,
  drawing: Drawing = browser_drawing,
  now = Date.now(),
): Promise<Captured> {
  const bytes = await file.arrayBuffer();
  if (bytes.byteLength === 0) return { ok: false, why: 'empty' };
  const size = read_size(new Uint8Array(bytes));
  const taken_at = new Date(now).toISOString();
  let picture: Decoded;
  try {
    picture = await drawing.decode(file, width_for(size));
  } catch {
    return undecoded(bytes, taken_at);
  }
  try {
    const ready = await draw(drawing, picture, size);
    return ready === undefined ? { ok: false, why: 'spoiled' } : { ok: true, photo: { ...ready, taken_at } };
  } catch {
    return { ok: false, why: 'spoiled' };
  } finally {
    picture.close();
  }
}

/**
 * Wide enough whichever way it is turned, and still small in memory; undefined leaves a small picture as it is. A
 * strip is made narrower: turned, it would be long.
 */
function width_for(size: Size | undefined): number | undefined {
  if (size === undefined || Math.max(size.width, size.height) <= LONGEST_PX) return undefined;
  const shape = Math.min(size.width, size.height) / Math.max(size.width, size.height);
  return shape < 0.4 ? LONGEST_PX * 0.4 : LONGEST_PX;
}

async function draw(
  drawing: Drawing,
  picture: Decoded,
  stored: Size | undefined,
): Promise<Omit<ReadyPhoto, 'taken_at'> | undefined> {
  if (stored !== undefined && !same_shape(picture, stored)) return undefined;
  const size = within(picture, LONGEST_PX);
  const bytes = await drawing.encode(picture, size, QUALITY);
  if (has_metadata(new Uint8Array(bytes)) || !(await looks_alike(drawing, picture, bytes))) return undefined;
  const thumbnail = await drawing.encode(picture, within(picture, THUMBNAIL_PX), THUMBNAIL_QUALITY);
  return {
    hash: hash_of(bytes),
    type: 'image/jpeg',
    bytes,
    thumbnail,
    width: size.width,
    height: size.height,
  };
}

/** Never larger than it is. */
function within({ width, height }: Size, longest: number): Size {
  const scale = Math.min(1, longest / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/** The stored shape, or that turned by a quarter: a picture cut off or squeezed is neither. */
function same_shape(a: Size, b: Size): boolean {
  const shape = a.width / a.height;
  return [b.width / b.height, b.height / b.width].some((other) => Math.abs(shape / other - 1) < MOST_SKEW);
}

/** Where the phone has too little memory a canvas comes out black, or half of it. */
async function looks_alike(drawing: Drawing, drawn: Decoded, bytes: ArrayBuffer): Promise<boolean> {
  const came_out = await drawing.decode(new Blob([bytes], { type: 'image/jpeg' }));
  try {
    const before = drawing.grid(drawn, GRID);
    const after = drawing.grid(came_out, GRID);
    const difference = before.reduce((sum, value, at) => sum + Math.abs(value - (after[at] ?? 0)), 0);
    return difference / before.length <= MOST_DIFFERENCE;
  } finally {
    came_out.close();
  }
}

function undecoded(bytes: ArrayBuffer, taken_at: string): Captured {
  if (!is_heic(new Uint8Array(bytes))) return { ok: false, why: 'spoiled' };
  if (bytes.byteLength > MOST_BYTES) return { ok: false, why: 'too_large' };
  return { ok: true, photo: { hash: hash_of(bytes), type: 'image/heic', bytes, taken_at, undecoded: true } };
}
