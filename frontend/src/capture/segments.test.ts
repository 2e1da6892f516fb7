// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { has_metadata, is_heic, is_jpeg, read_size } from './segments.ts';

const segment = (marker: number, ...content: number[]): number[] => {
  const length = content.length + 2;
  return [0xff, marker, length >> 8, length & 0xff, ...content];
};
const jpeg = (...segments: number[][]): Uint8Array =>
  Uint8Array.from([0xff, 0xd8, ...segments.flat(), 0xff, 0xda, 0, 2]);
const frame = (marker: number, height: number, width: number) =>
  segment(marker, 8, height >> 8, height & 0xff, width >> 8, width & 0xff, 3);
const EXIF = segment(0xe1, ...Buffer.from('Exif\0\0'));
const JFIF = segment(0xe0, ...Buffer.from('JFIF\0'));
const text = (words: string) => Uint8Array.from(Buffer.from(words, 'latin1'));

describe('what a picture says of itself', () => {
  // Source: ITU-T T.81, tables B.1 and B.2: length, precision, lines, samples a line.
  it.each([0xc0, 0xc2])('a JPEG tells its size in its frame', (marker) => {
    expect(read_size(jpeg(JFIF, EXIF, frame(marker, 3024, 4032)))).toEqual({ width: 4032, height: 3024 });
  });

  it('not in tables that look like one', () => {
    expect(read_size(jpeg(frame(0xc4, 1, 1), frame(0xc0, 20, 10)))).toEqual({ width: 10, height: 20 });
  });

  // Source: W3C PNG, third edition, section 11.2.1: width and height are the first fields of IHDR.
  it('a PNG tells its size at its beginning', () => {
    const png = Uint8Array.from([
      0x89,
      0x50,
      0x4e,
      0x47,
      0x0d,
      0x0a,
      0x1a,
      0x0a,
      0,
      0,
      0,
      13,
      ...Buffer.from('IHDR'),
      0,
      0,
      0x75,
      0x30,
      0,
      0,
      0,
      7,
    ]);
    expect(read_size(png)).toEqual({ width: 30_000, height: 7 });
  });

  it.each([
    new Uint8Array(),
    text('hello'),
    Uint8Array.from([0xff, 0xd8]),
    jpeg(),
    Uint8Array.from([0x89, 0x50, 0x4e, 0x47]),
  ])('other bytes tell none', (bytes) => {
    expect(read_size(bytes)).toBeUndefined();
  });

  it('hazard 22: APP1 is found wherever it stands before the picture, and nowhere else', () => {
    expect(has_metadata(jpeg(JFIF, frame(0xc0, 1, 1), EXIF))).toBe(true);
    expect(has_metadata(jpeg(JFIF, frame(0xc0, 1, 1)))).toBe(false);
    expect(has_metadata(Uint8Array.from([0xff, 0xd8, 0xff, 0xda, 0, 2, 0xff, 0xe1, 0, 2]))).toBe(false);
    expect(has_metadata(text('Exif'))).toBe(false);
  });

  it('padding between segments is passed over', () => {
    const padded = Uint8Array.from([0xff, 0xd8, 0xff, 0xff, 0xff, ...EXIF.slice(1), 0xff, 0xda, 0, 2]);
    expect(has_metadata(padded)).toBe(true);
  });

  it('HEIC is told by its brand', () => {
    expect(is_heic(text('\0\0\0\x18ftypheic\0\0\0\0'))).toBe(true);
    expect(is_heic(text('\0\0\0\x18ftypmif1\0\0\0\0'))).toBe(true);
    expect(is_heic(text('\0\0\0\x18ftypisom\0\0\0\0'))).toBe(false);
    expect(is_jpeg(jpeg())).toBe(true);
  });
});
