/** What a picture's own bytes say, read without decoding it. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

const JPEG = [0xff, 0xd8, 0xff] as const;
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;
const APP1 = 0xe1;
const START_OF_SCAN = 0xda;
/** Start of frame, all kinds but the tables among them (ITU-T T.81, table B.1). */
const is_frame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);

export const is_jpeg = (bytes: Uint8Array): boolean => begins_with(bytes, JPEG);

/** HEIC and AVIF are ISO base media files (ISO/IEC 14496-12): a box `ftyp` with a brand. */
export function is_heic(bytes: Uint8Array): boolean {
  const brand = text_at(bytes, 8);
  return text_at(bytes, 4) === 'ftyp' && /^(hei[cxms]|hev[cx]|mif1|msf1)$/.test(brand);
}

/** As stored, before any turning; undefined where it is neither JPEG nor PNG. */
export function read_size(bytes: Uint8Array): Size | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (begins_with(bytes, PNG) && bytes.length >= 24)
    return { width: view.getUint32(16), height: view.getUint32(20) };
  for (const { marker, at, length } of segments(bytes)) {
    // Two bytes of length, one of precision, then height and width.
    if (is_frame(marker) && length >= 7)
      return { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
  }
  return undefined;
}

/** EXIF and XMP, and with them the place a picture was taken, lie in segments APP1. */
export const has_metadata = (bytes: Uint8Array): boolean =>
  segments(bytes).some(({ marker }) => marker === APP1);

interface Segment {
  readonly marker: number;
  /** Where its marker begins. */
  readonly at: number;
  /** Of its content with the two bytes that tell it. */
  readonly length: number;
}

/** The segments before the picture itself (ITU-T T.81, annex B). */
function segments(bytes: Uint8Array): readonly Segment[] {
  if (!is_jpeg(bytes)) return [];
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found: Segment[] = [];
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === START_OF_SCAN) break;
    const length = view.getUint16(at + 2);
    found.push({ marker, at, length });
    at += 2 + length;
  }
  return found;
}

const begins_with = (bytes: Uint8Array, mark: readonly number[]): boolean =>
  mark.every((byte, at) => bytes[at] === byte);

const text_at = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.slice(at, at + 4));
