/** A ring on a picture that is shown cropped (as `object-fit: cover` does): between the picture's shares and the box. Pure. */
import type { Ring } from './lotstep.ts';

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Radius of a new ring, in shares of the picture's longer side. */
export const RADIUS = 0.14;
/** A move by an arrow key, in shares. */
export const NUDGE = 0.03;

const longer = ({ width, height }: Size): number => Math.max(width, height);
const thousandths = (n: number): number => Math.round(Math.min(1, Math.max(0, n)) * 1000) / 1000;

/** How large the picture is drawn, and how much of it is cut off at the left and the top. [px] */
function cover(
  picture: Size,
  box: Size,
): { readonly scale: number; readonly left: number; readonly top: number } {
  const scale = Math.max(box.width / picture.width, box.height / picture.height);
  return {
    scale,
    left: (picture.width * scale - box.width) / 2,
    top: (picture.height * scale - box.height) / 2,
  };
}

export interface Drawn {
  readonly left: number;
  readonly top: number;
  readonly size: number;
}

/** Where the ring stands in the box. [px] */
export function drawn(ring: Ring, picture: Size, box: Size): Drawn {
  const { scale, left, top } = cover(picture, box);
  const unit = longer(picture) * scale;
  const radius = ring.r * unit;
  return { left: ring.x * unit - left - radius, top: ring.y * unit - top - radius, size: 2 * radius };
}

/** The ring whose middle is at this point of the box. */
export function ringAt(
  point: { readonly x: number; readonly y: number },
  picture: Size,
  box: Size,
  r = RADIUS,
): Ring {
  const { scale, left, top } = cover(picture, box);
  const unit = longer(picture) * scale;
  return { x: thousandths((point.x + left) / unit), y: thousandths((point.y + top) / unit), r };
}

/** A ring in the middle, moved by an arrow. */
export function nudged(ring: Ring | undefined, dx: number, dy: number, picture: Size): Ring {
  const unit = longer(picture);
  const from = ring ?? { x: picture.width / unit / 2, y: picture.height / unit / 2, r: RADIUS };
  return { x: thousandths(from.x + dx * NUDGE), y: thousandths(from.y + dy * NUDGE), r: from.r };
}
