/**
 * Moments and days in the household's zone (F1). Twin: `homestead/storekeeping/days.py`.
 *
 * A day is a whole number, days since 1970-01-01, so that both twins count alike; text only at the edges.
 */
export const DAY_MS = 86_400_000;
const NOON_MS = 43_200_000;

interface Turning {
  readonly instant: number;
  readonly before: number;
  readonly after: number;
}

/** Offsets of one IANA zone, remembered by day: asking Intl for every entry is slow. */
export class Zone {
  readonly #format: Intl.DateTimeFormat;
  readonly #steady = new Map<number, number>();
  readonly #turning = new Map<number, Turning>();

  /** Throws RangeError for an unknown zone. */
  constructor(name: string) {
    this.#format = new Intl.DateTimeFormat('en-US', {
      timeZone: name,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
    });
  }

  /** The household's day at a moment. */
  day_of(when_ms: number): number {
    return Math.floor((when_ms + this.offset_ms(when_ms)) / DAY_MS);
  }

  /** 12:00 of a day [ms since 1970, UTC]. */
  noon_of(day: number): number {
    const wall = day * DAY_MS + NOON_MS;
    const first_guess = wall - this.offset_ms(wall);
    return wall - this.offset_ms(first_guess);
  }

  /** Local time less UTC [ms]. */
  offset_ms(when_ms: number): number {
    const day = Math.floor(when_ms / DAY_MS);
    const steady = this.#steady.get(day);
    if (steady !== undefined) return steady;
    const turning = this.#turning.get(day) ?? this.#look_up(day);
    return when_ms < turning.instant ? turning.before : turning.after;
  }

  /** Where the clocks change within this UTC day. */
  #look_up(day: number): Turning {
    let early = day * DAY_MS;
    let late = early + DAY_MS;
    const before = this.#asked(early);
    const after = this.#asked(late);
    if (before === after) {
      this.#steady.set(day, before);
      return { instant: late, before, after };
    }
    while (late - early > 1) {
      const middle = Math.floor((early + late) / 2);
      if (this.#asked(middle) === before) early = middle;
      else late = middle;
    }
    const turning = { instant: late, before, after };
    this.#turning.set(day, turning);
    return turning;
  }

  #asked(when_ms: number): number {
    const parts: Record<string, number> = {};
    for (const { type, value } of this.#format.formatToParts(when_ms)) parts[type] = Number(value);
    const { year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0 } = parts;
    return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(when_ms / 1000) * 1000;
  }
}

const zones = new Map<string, Zone>();

/** The zone of an IANA name. Throws RangeError for an unknown one. */
export function zone_named(name: string): Zone {
  let zone = zones.get(name);
  if (zone === undefined) zones.set(name, (zone = new Zone(name)));
  return zone;
}

/** ISO 8601 with offset to ms since 1970. Throws RangeError for anything else. */
export function moment_ms(text: string): number {
  const when_ms = Date.parse(text);
  if (Number.isNaN(when_ms)) throw new RangeError(`not a moment: ${text}`);
  return when_ms;
}

/** `2026-11-25` to its number. Throws RangeError for anything else. */
export function day_number(text: string): number {
  return moment_ms(`${text}T00:00:00Z`) / DAY_MS;
}

const day_texts = new Map<number, string>();

export function day_text(day: number): string {
  let text = day_texts.get(day);
  if (text === undefined) day_texts.set(day, (text = new Date(day * DAY_MS).toISOString().slice(0, 10)));
  return text;
}

/** The winter a day belongs to, named by the year it begins in: from 1 August, in the south 1 February. */
export function winter_of(day: number, hemisphere: 'north' | 'south'): number {
  const date = new Date(day * DAY_MS);
  const begins = hemisphere === 'north' ? 7 : 1;
  return date.getUTCMonth() >= begins ? date.getUTCFullYear() : date.getUTCFullYear() - 1;
}
