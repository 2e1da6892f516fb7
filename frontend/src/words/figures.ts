/** How figures read: digits, units and days in a language and a manner. Conversions stand here and nowhere else on the phone. */
import type { Manner } from './tongue.svelte';

/** International avoirdupois pound and inch, exact: NIST SP 811 (2008), appendix B.8. */
export const GRAMS_A_POUND = 453.59237;
export const CM_AN_INCH = 2.54;
const OUNCES_A_POUND = 16;
const INCHES_A_FOOT = 12;
const NBSP = '\u00a0';

export const c_to_f = (c: number): number => c * 1.8 + 32;
export const f_to_c = (f: number): number => (f - 32) / 1.8;

/** A day as `2026-11-25`, or a moment as ISO 8601. */
export type When = string | Date;

const QUARTERS: Readonly<Record<number, string>> = { 0.25: '¼', 0.5: '½', 0.75: '¾' };

/** A date without a time stands at noon UTC, so that no zone moves it to a neighbouring day. */
const moment = (when: When): Date =>
  typeof when === 'string' ? new Date(/^\d{4}-\d\d-\d\d$/.test(when) ? `${when}T12:00:00Z` : when) : when;

export class Figures {
  readonly #locale: string;
  readonly #manner: Manner;
  readonly #formats = new Map<string, Intl.DateTimeFormat>();
  readonly #numerals = new Map<string, Intl.NumberFormat>();
  #day: Intl.DateTimeFormat | undefined;

  constructor(locale: string, manner: Manner) {
    this.#locale = locale;
    this.#manner = manner;
  }

  /** Kept, since making one takes a browser longer than a whole list of numbers. */
  #numeral(least: number, most: number, useGrouping: boolean): Intl.NumberFormat {
    const key = `${least} ${most} ${useGrouping}`;
    let format = this.#numerals.get(key);
    if (!format) {
      const digits = { minimumFractionDigits: least, maximumFractionDigits: most };
      format = new Intl.NumberFormat(this.#locale, { ...digits, useGrouping });
      this.#numerals.set(key, format);
    }
    return format;
  }

  /** At most `digits` decimals (2 when absent); a true minus sign. */
  number = (n: number, digits = 2): string => this.#numeral(0, digits, true).format(n).replace('-', '−');

  /** Always that many decimals. */
  fixed = (n: number, digits: number): string =>
    this.#numeral(digits, digits, true).format(n).replace('-', '−');

  /** For a field to be typed in: no grouping. */
  plain = (n: number): string => this.#numeral(0, 3, false).format(n);

  /** Pieces come in quarters: "22 ½". */
  pieces = (n: number): string => {
    const whole = Math.trunc(n);
    const quarter = QUARTERS[Math.abs(n - whole)];
    if (quarter === undefined) return this.number(n);
    return whole === 0 ? quarter : `${this.number(whole)}${NBSP}${quarter}`;
  };

  get weight_unit(): 'kg' | 'lb' {
    return this.#manner.weight;
  }
  /** What a weight stepper moves by, in the unit shown. */
  get weight_step(): number {
    return 0.5;
  }
  /** Grams in the unit shown. */
  weigh = (grams: number): number => (this.#manner.weight === 'kg' ? grams / 1000 : grams / GRAMS_A_POUND);
  /** The unit shown in whole grams. */
  grams = (shown: number): number =>
    Math.round(this.#manner.weight === 'kg' ? shown * 1000 : shown * GRAMS_A_POUND);

  /** "41 kg", "2.4 kg", "80 g"; "90 lb", "3.5 lb", "3 oz". */
  weight = (grams: number): string => {
    const { shown, unit } = this.#weight(grams);
    return `${shown}${NBSP}${unit}`;
  };

  /** The lower end of a band, without the unit that its upper end tells: the "0.8" of "0.8 to 3.5 kg". */
  low_end = (low: number, high: number): string => {
    const { shown, unit } = this.#weight(low);
    return low === 0 || unit === this.#weight(high).unit ? shown : this.weight(low);
  };

  #weight(grams: number): { shown: string; unit: string } {
    const size = Math.abs(grams);
    if (this.#manner.weight === 'lb') {
      const pounds = grams / GRAMS_A_POUND;
      if (size < GRAMS_A_POUND / 4) return { shown: this.number(pounds * OUNCES_A_POUND, 1), unit: 'oz' };
      return { shown: this.number(pounds, size < 10 * GRAMS_A_POUND ? 1 : 0), unit: 'lb' };
    }
    if (size < 100) return { shown: this.number(grams, 0), unit: 'g' };
    return { shown: this.number(grams / 1000, size < 9950 ? 1 : 0), unit: 'kg' };
  }

  get temp_unit(): string {
    return this.#manner.temp === 'C' ? '°C' : '°F';
  }
  /** Degrees Celsius in the unit shown, to a tenth. */
  degrees = (c: number): number => Math.round((this.#manner.temp === 'C' ? c : c_to_f(c)) * 10) / 10;
  /** The unit shown in degrees Celsius, to a tenth. */
  celsius = (shown: number): number =>
    Math.round((this.#manner.temp === 'C' ? shown : f_to_c(shown)) * 10) / 10;
  temp = (c: number): string => `${this.number(this.degrees(c), 1)}${NBSP}${this.temp_unit}`;

  length = (cm: number): string =>
    this.#manner.length === 'cm'
      ? `${this.number(cm, 1)}${NBSP}cm`
      : `${this.number(cm / CM_AN_INCH, 1)}${NBSP}in`;

  /** Of a row in the garden: "64 m", "210 ft". */
  row_length = (m: number): string =>
    this.#manner.length === 'cm'
      ? `${this.number(m, 0)}${NBSP}m`
      : `${this.number((m * 100) / CM_AN_INCH / INCHES_A_FOOT, 0)}${NBSP}ft`;

  /** A share of 0 to 100. */
  percent = (n: number): string => `${this.number(n, 0)}${NBSP}%`;
  bytes = (n: number): string =>
    n < 1_000_000 ? `${this.number(n / 1000, 0)}${NBSP}kB` : `${this.number(n / 1_000_000, 1)}${NBSP}MB`;
  minutes = (n: number): string => `${this.number(Math.max(1, n), 0)}${NBSP}min`;

  #date(when: When, options: Intl.DateTimeFormatOptions): string {
    const bare = typeof when === 'string' && when.length === 10;
    const timeZone = bare ? 'UTC' : this.#manner.zone;
    const key = JSON.stringify([options, timeZone]);
    let format = this.#formats.get(key);
    if (!format) {
      format = new Intl.DateTimeFormat(this.#locale, timeZone ? { ...options, timeZone } : options);
      this.#formats.set(key, format);
    }
    return format.format(moment(when));
  }

  /** "4 January". */
  day = (when: When): string => this.#date(when, { day: 'numeric', month: 'long' });
  /** "4 Jan". */
  short_day = (when: When): string => this.#date(when, { day: 'numeric', month: 'short' });
  /** "4 January 2026". */
  full_day = (when: When): string => this.#date(when, { day: 'numeric', month: 'long', year: 'numeric' });
  month = (when: When): string => this.#date(when, { month: 'long' });
  short_month = (when: When): string => this.#date(when, { month: 'short' });
  weekday = (when: When): string => this.#date(when, { weekday: 'long' });
  short_weekday = (when: When): string => this.#date(when, { weekday: 'short' });
  /** "14:10". */
  time = (when: When): string => this.#date(when, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });

  /** The day of a moment in the household's zone, as `2026-11-25`. */
  day_of = (when: When): string => {
    if (typeof when === 'string' && when.length === 10) return when;
    // Browsers differ in how a language orders them, so they are put in order here.
    this.#day ??= new Intl.DateTimeFormat('en-GB', {
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      ...(this.#manner.zone ? { timeZone: this.#manner.zone } : {}),
    });
    const parts = this.#day.formatToParts(moment(when));
    const part = (type: string) => parts.find((one) => one.type === type)?.value ?? '';
    return `${part('year')}-${part('month')}-${part('day')}`;
  };

  /** Days from one to the other, in the household's zone. */
  days_between = (from: When, to: When): number =>
    Math.round((Date.parse(this.day_of(to)) - Date.parse(this.day_of(from))) / 86_400_000);

  /** For a margin: the time today, the weekday within a week, else the day. */
  margin = (when: When, now: When): string => {
    const days = this.days_between(when, now);
    if (days === 0 && !(typeof when === 'string' && when.length === 10)) return this.time(when);
    if (days > 0 && days < 7) return this.short_weekday(when);
    return this.short_day(when);
  };

  /** "this minute", "8 min ago", "2 days ago". */
  ago = (when: When, now: When): string => {
    const minutes = Math.max(0, (moment(now).getTime() - moment(when).getTime()) / 60_000);
    const now_or_then = minutes < 0.5 ? 'auto' : 'always';
    const words = new Intl.RelativeTimeFormat(this.#locale, { style: 'short', numeric: now_or_then });
    if (minutes < 60) return words.format(-Math.round(minutes), 'minute');
    if (minutes < 48 * 60) return words.format(-Math.round(minutes / 60), 'hour');
    return words.format(-Math.round(minutes / 1440), 'day');
  };

  /** "carrots, beet and leeks". */
  list = (words: readonly string[]): string =>
    new Intl.ListFormat(this.#locale, { type: 'conjunction', style: 'long' }).format(words);
  /** Sorted as people of the language look for it. */
  compare = (a: string, b: string): number =>
    a.localeCompare(b, this.#locale, { numeric: true, sensitivity: 'base' });
}
