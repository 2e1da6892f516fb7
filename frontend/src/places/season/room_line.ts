/** Temperatures of all rooms on one line, so that they can be compared. Pure. */
import { extent, ticks } from 'd3-array';
import type { Room } from './rooms_sheet';

export const WIDTH = 354;
export const TALL = 46;
/** A freezer's or a kitchen's warmth would press the rest together: it is told in words. [°C] */
const COLDEST_C = -8;
const WARMEST_C = 25;

export interface Line {
  readonly low: number;
  readonly high: number;
  /** Round temperatures to write under it. [°C] */
  readonly marks: readonly number[];
  readonly x: (temp_c: number) => number;
}

const within = (temp_c: number): boolean => temp_c >= COLDEST_C && temp_c <= WARMEST_C;

/** Whether it can be drawn on the line: something is wanted there or was read, and not as in a freezer. */
export const drawn = (room: Room): boolean =>
  (room.wanted !== undefined || room.lately !== undefined) && within(room.week?.[1] ?? 0);

export function line_of(rooms: readonly Room[]): Line {
  const temps = rooms
    .filter(drawn)
    .flatMap((room) => [
      ...(room.wanted ? [...room.wanted.temp_c, room.wanted.freezing_c] : []),
      ...(room.lately ?? []),
      ...(room.week ?? []),
    ])
    .filter(within);
  const [least = 0, most = 10] = temps.length ? extent(temps) : [0, 10];
  const low = Math.floor(Math.min(least, -2));
  const high = Math.ceil(Math.max(most, 10));
  return {
    low,
    high,
    marks: ticks(low, high, 5),
    x: (temp_c) => ((Math.min(Math.max(temp_c, low), high) - low) / (high - low)) * WIDTH,
  };
}
