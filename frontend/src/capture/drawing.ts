/** Decoding to size, scaling and encoding by the browser's means. */
import type { Size } from './segments.ts';

export interface Decoded extends Size {
  readonly image: CanvasImageSource;
  close(): void;
}

export interface Drawing {
  /** The right way up; `width` scales it while decoding, so that a large picture is never whole in memory. */
  decode(bytes: Blob, width?: number): Promise<Decoded>;
  /** JPEG; drawing leaves all metadata behind. */
  encode(picture: Decoded, to: Size, quality: number): Promise<ArrayBuffer>;
  /** Red, green and blue of a coarse grid, row by row, to compare two pictures by. */
  grid(picture: Decoded, side: number): readonly number[];
}

export const browser_drawing: Drawing = {
  async decode(bytes, width) {
    const options: ImageBitmapOptions = { imageOrientation: 'from-image' };
    if (width !== undefined) Object.assign(options, { resizeWidth: width, resizeQuality: 'high' });
    const image = await createImageBitmap(bytes, options);
    return { image, width: image.width, height: image.height, close: () => image.close() };
  },

  async encode(picture, to, quality) {
    const canvas = drawn(picture, to);
    try {
      const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
      if (blob === null) throw new Error('the browser made no picture of it');
      return await blob.arrayBuffer();
    } finally {
      let_go(canvas);
    }
  },

  grid(picture, side) {
    const canvas = drawn(picture, { width: side, height: side });
    const pixels = context_of(canvas).getImageData(0, 0, side, side).data;
    let_go(canvas);
    return [...pixels].filter((_, at) => at % 4 !== 3);
  },
};

function drawn(picture: Decoded, { width, height }: Size): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  context_of(canvas).drawImage(picture.image, 0, 0, width, height);
  return canvas;
}

function context_of(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null) throw new Error('the browser draws nothing');
  return context;
}

/** Phones keep a canvas' memory long after it is out of sight. */
function let_go(canvas: HTMLCanvasElement): void {
  canvas.width = 0;
  canvas.height = 0;
}
