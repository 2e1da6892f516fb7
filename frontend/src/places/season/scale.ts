/** The line that intervals are drawn on: from nought to a round number past the largest. Pure. */
import { max, ticks } from 'd3-array';

export const WIDTH = 320;
export const TALL = 30;

export interface Scale {
  readonly top: number;
  /** Round numbers to write under it, nought first, none past the top. */
  readonly marks: readonly number[];
  readonly x: (value: number) => number;
}

/** `least`: the line is at least so long. */
export function scale_to(values: Iterable<number>, least = 1): Scale {
  const largest = Math.max(max(values) ?? 0, least);
  const step = ticks(0, largest, 3)[1] ?? largest;
  const top = Math.ceil(largest / step) * step;
  return { top, marks: ticks(0, top, top / step), x: (value) => (Math.min(value, top) / top) * WIDTH };
}
