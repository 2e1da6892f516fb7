/** Times as they are written in lines. */
import type { Clock } from './ports.ts';

const pad = (n: number, width = 2): string => String(Math.abs(n)).padStart(width, '0');

/** `+01:00` for 60. */
export function offset_text(minutes: number): string {
  return `${minutes < 0 ? '-' : '+'}${pad(Math.trunc(minutes / 60))}:${pad(minutes % 60)}`;
}

/** A moment with the phone's own offset: `2026-11-25T10:24:53.123+01:00`. */
export function moment_text(clock: Clock, at: number): string {
  const offset = clock.offset_minutes(at);
  return new Date(at + offset * 60_000).toISOString().slice(0, 23) + offset_text(offset);
}

/** The day a person names, `2026-11-20`, at noon by the phone's own offset of that day. */
export function noon_text(clock: Clock, day: string): string {
  const noon = Date.parse(`${day}T12:00:00.000Z`);
  return `${day}T12:00:00.000${offset_text(clock.offset_minutes(noon))}`;
}

export const utc_text = (at: number): string => new Date(at).toISOString();
