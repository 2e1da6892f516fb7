// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { Decoded, Drawing } from './drawing.ts';
import { hash_of } from '../ledger/hashing.ts';
import { capture } from './index.ts';
import type { Size } from './segments.ts';

const MADE = Uint8Array.from([0xff, 0xd8, 0xff, 0xdb, 0, 2, 0xff, 0xda, 0, 2]);
const WITH_EXIF = Uint8Array.from([0xff, 0xd8, 0xff, 0xe1, 0, 2, 0xff, 0xda, 0, 2]);

interface Told {
  /** Of the picture as the phone turns it. */
  readonly upright: Size;
  readonly makes?: Uint8Array;
  /** What the grid of the encoded picture shows, beside that of the first. */
  readonly comes_out?: number;
}

/** A browser that decodes to the width asked, and remembers what it was asked. */
function drawing({ upright, makes = MADE, comes_out = 100 }: Told) {
  const asked: { decoded: (number | undefined)[]; encoded: Size[]; closed: number } = {
    decoded: [],
    encoded: [],
    closed: 0,
  };
  let pictures = 0;
  const browser: Drawing = {
    async decode(_bytes, width) {
      asked.decoded.push(width);
      pictures += 1;
      const scale = width === undefined ? 1 : width / upright.width;
      const size = { width: Math.round(upright.width * scale), height: Math.round(upright.height * scale) };
      const image: Decoded & { no: number } = {
        ...size,
        no: pictures,
        image: {} as CanvasImageSource,
        close: () => void (asked.closed += 1),
      };
      return image;
    },
    async encode(_picture, to) {
      asked.encoded.push(to);
      return makes.slice().buffer;
    },
    grid: (picture) =>
      Array.from({ length: 3 }, () => ('no' in picture && picture.no === 1 ? 100 : comes_out)),
  };
  return { browser, asked };
}

function jpeg(stored: Size): Blob {
  const { width, height } = stored;
  const frame = [0xff, 0xc0, 0, 8, 8, height >> 8, height & 0xff, width >> 8, width & 0xff, 3];
  return new Blob([Uint8Array.from([0xff, 0xd8, ...frame, 0xff, 0xda, 0, 2])], { type: 'image/jpeg' });
}

const CELLAR = { width: 4032, height: 3024 };

describe('a picture from the camera', () => {
  it('is decoded small, scaled to 1600 px and named by its hash, with a thumbnail', async () => {
    const { browser, asked } = drawing({ upright: CELLAR });
    const captured = await capture(jpeg(CELLAR), browser, Date.UTC(2026, 10, 25, 9));
    expect(asked).toEqual({
      decoded: [1600, undefined],
      encoded: [
        { width: 1600, height: 1200 },
        { width: 320, height: 240 },
      ],
      closed: 2,
    });
    expect(captured).toMatchObject({
      ok: true,
      photo: {
        hash: hash_of(MADE.slice().buffer),
        type: 'image/jpeg',
        width: 1600,
        height: 1200,
        taken_at: '2026-11-25T09:00:00.000Z',
      },
    });
  });

  it('hazard 21: turned by a quarter it is as long', async () => {
    const { browser, asked } = drawing({ upright: { width: 3024, height: 4032 } });
    expect(await capture(jpeg(CELLAR), browser)).toMatchObject({ ok: true });
    expect(asked.encoded).toEqual([
      { width: 1200, height: 1600 },
      { width: 240, height: 320 },
    ]);
  });

  it('a strip is decoded narrow, so that it fits in memory either way', async () => {
    const { browser, asked } = drawing({ upright: { width: 1200, height: 9000 } });
    expect(await capture(jpeg({ width: 9000, height: 1200 }), browser)).toMatchObject({ ok: true });
    expect(asked.decoded[0]).toBe(640);
  });

  it('a small one is not made larger', async () => {
    const { browser, asked } = drawing({ upright: { width: 800, height: 600 } });
    await capture(jpeg({ width: 800, height: 600 }), browser);
    expect(asked.decoded[0]).toBeUndefined();
    expect(asked.encoded[0]).toEqual({ width: 800, height: 600 });
  });

  it('hazard 21: one that comes out black is not kept', async () => {
    const { browser, asked } = drawing({ upright: CELLAR, comes_out: 0 });
    expect(await capture(jpeg(CELLAR), browser)).toEqual({ ok: false, why: 'spoiled' });
    expect(asked.closed).toBe(2);
  });

  it('hazard 21: one that was cut off or squeezed is not kept', async () => {
    const { browser } = drawing({ upright: { width: 4032, height: 1512 } });
    expect(await capture(jpeg(CELLAR), browser)).toEqual({ ok: false, why: 'spoiled' });
  });

  it('hazard 22: one that came out with metadata is not kept', async () => {
    const { browser } = drawing({ upright: CELLAR, makes: WITH_EXIF });
    expect(await capture(jpeg(CELLAR), browser)).toEqual({ ok: false, why: 'spoiled' });
  });

  it('nothing taken is nothing', async () => {
    expect(await capture(new Blob([]), drawing({ upright: CELLAR }).browser)).toEqual({
      ok: false,
      why: 'empty',
    });
  });
});

describe('a picture this phone cannot read', () => {
  const blind: Drawing = {
    ...drawing({ upright: CELLAR }).browser,
    decode: () => Promise.reject(new Error('no')),
  };
  const heic = (bytes: number) =>
    new Blob([Buffer.concat([Buffer.from('\0\0\0\x18ftypheic'), Buffer.alloc(bytes)])]);

  it('is kept as it is when it is HEIC, and says so', async () => {
    const captured = await capture(heic(100), blind);
    expect(captured).toMatchObject({ ok: true, photo: { type: 'image/heic', undecoded: true } });
    if (!captured.ok) throw new Error('not kept');
    expect(captured.photo.hash).toBe(hash_of(await heic(100).arrayBuffer()));
    expect('thumbnail' in captured.photo).toBe(false);
  });

  it('is too large when the server would not take it', async () => {
    expect(await capture(heic(12_000_000), blind)).toEqual({ ok: false, why: 'too_large' });
  });

  it('is spoiled when it is no picture', async () => {
    expect(await capture(new Blob(['<svg/>']), blind)).toEqual({ ok: false, why: 'spoiled' });
    const out_of_memory: Drawing = {
      ...drawing({ upright: CELLAR }).browser,
      encode: () => Promise.reject(new Error('no')),
    };
    expect(await capture(jpeg(CELLAR), out_of_memory)).toEqual({ ok: false, why: 'spoiled' });
  });
});
