/**
 * A compost heap's balance, of what went in: C:N, moisture, volume; what to add; was it hot, may it be used.
 * Twin: `homestead/storekeeping/heap.py`. Pure; figures come from the tables. Forms: Cornell Composting. What a heap has
 * lost by rotting is not reckoned: the balance tells how it was built.
 */

const MIXED = 'any_produce';
/** C:N that works, and the better part of it: `compost_materials.csv`, GUIDE, acceptable and ideal. */
export const C_TO_N = [20, 60] as const;
export const C_TO_N_IDEAL = [25, 40] as const;
/** Moisture that works [%], and the one to aim at. */
export const MOISTURE = [40, 65] as const;
export const MOISTURE_GOAL = 55;
/** Loose fresh scraps where the tables have no density [kg/m3]. From memory. */
export const SCRAPS_DENSITY = 500;
/** °C, days and turnings of a heap that counts as hot: US rule for turned piles (40 CFR 503). From memory. */
export const HOT_C = 55;
export const HOT_DAYS = 15;
export const HOT_TURNS = 5;
/**
 * Days between the last that was added and use on beds: a heap measured hot, another. US organic rule for what holds
 * manure (7 CFR 205.203: 120 days before harvest of what touches soil). From memory.
 */
export const WAIT_HOT = 60;
export const WAIT_COLD = 120;
export const TURN_DAYS = 14;
export const WATER = 'water';

/** Nitrogen [% of dry], C:N, moisture [%], density [kg/m3] or null, and the row it is from. */
export interface HeapValue {
  readonly n: number;
  readonly c_to_n: number;
  readonly moisture: number;
  readonly density: number | null;
  readonly row: string;
}
export type HeapValues = Readonly<Record<string, HeapValue>>;

/** Something on a heap [g]. `of`: crop or material, null mixed scraps, `water`. */
export interface Load {
  readonly of: string | null;
  readonly grams: number;
}

/** kg: all. unknown_kg: of what the tables do not know. c_to_n, moisture_pct: null for nothing known. litres: as loaded. */
export interface Balance {
  readonly kg: number;
  readonly unknown_kg: number;
  readonly c_to_n: number | null;
  readonly moisture_pct: number | null;
  readonly litres: number;
}

export interface Warmth {
  readonly day: string;
  readonly temp_c: number;
}

/** C:N = sum of carbon / sum of nitrogen, moisture = sum of water / sum of weight (Cornell). */
export function balance_of(loads: readonly Load[], values: HeapValues): Balance {
  let [carbon, nitrogen, water, known, litres, all_g] = [0, 0, 0, 0, 0, 0];
  for (const { of, grams } of loads) {
    all_g += grams;
    if (of === WATER) {
      water += grams;
      known += grams;
      continue;
    }
    const value = values[of ?? MIXED];
    litres += grams / (value?.density ?? SCRAPS_DENSITY);
    if (!value) continue;
    const dry = (grams * (100 - value.moisture)) / 100;
    nitrogen += (dry * value.n) / 100;
    carbon += ((dry * value.n) / 100) * value.c_to_n;
    water += grams - dry;
    known += grams;
  }
  return {
    kg: all_g / 1000,
    unknown_kg: (all_g - known) / 1000,
    c_to_n: nitrogen > 0 ? carbon / nitrogen : null,
    moisture_pct: known > 0 ? (100 * water) / known : null,
    litres,
  };
}

export type Asks = 'brown' | 'green' | 'water';

/** `brown`: too wet or too much nitrogen. `green`: too little. `water`: too dry. null: it is right, or not known. */
export function asks_for({ c_to_n, moisture_pct }: Balance): Asks | null {
  if (c_to_n === null || moisture_pct === null) return null;
  if (moisture_pct > MOISTURE[1] || c_to_n < C_TO_N[0]) return 'brown';
  if (c_to_n > C_TO_N[1]) return 'green';
  return moisture_pct < MOISTURE[0] ? 'water' : null;
}

/**
 * Kilograms of a material that bring the heap into what works: the most of what C:N and moisture ask for, but never so much
 * that C:N leaves it at the other end. Wet stuff may then stay wet. null where this material cannot do it. Source: Cornell,
 * both forms solved for the second material.
 */
export function to_add_kg(loads: readonly Load[], values: HeapValues, material: string): number | null {
  const value = values[material];
  const { c_to_n, moisture_pct, kg, unknown_kg } = balance_of(loads, values);
  if (!value || c_to_n === null || moisture_pct === null) return null;
  const wanted: (number | null)[] = [];
  if (c_to_n < C_TO_N[0]) wanted.push(for_ratio(loads, values, value, C_TO_N_IDEAL[0]));
  if (c_to_n > C_TO_N[1]) wanted.push(for_ratio(loads, values, value, C_TO_N_IDEAL[1]));
  if (moisture_pct > MOISTURE[1] && value.moisture < MOISTURE[1])
    wanted.push(((kg - unknown_kg) * (moisture_pct - MOISTURE[1])) / (MOISTURE[1] - value.moisture));
  const asked = wanted.reduce<number | null>(
    (sum, one) => (sum === null || one === null ? null : Math.max(sum, one)),
    0,
  );
  const most = value.c_to_n > C_TO_N[1] ? for_ratio(loads, values, value, C_TO_N[1]) : null;
  return asked === null || most === null ? asked : Math.min(asked, most);
}

/** Kilograms that bring the C:N to the goal, null where they would draw it away. */
function for_ratio(
  loads: readonly Load[],
  values: HeapValues,
  value: HeapValue,
  goal: number,
): number | null {
  let [carbon, nitrogen] = [0, 0];
  for (const { of, grams } of loads) {
    const one = values[of ?? MIXED];
    if (!one) continue;
    const n = (grams / 1000) * (100 - one.moisture) * one.n;
    nitrogen += n;
    carbon += n * one.c_to_n;
  }
  const pull = (100 - value.moisture) * value.n * (value.c_to_n - goal);
  const lack = goal * nitrogen - carbon;
  return pull * lack > 0 ? lack / pull : null;
}

/** Litres that bring a dry heap to the moisture to aim at. Source: mass balance. */
export function water_litres({ moisture_pct, kg, unknown_kg }: Balance): number {
  if (moisture_pct === null || moisture_pct >= MOISTURE[0]) return 0;
  return ((kg - unknown_kg) * (MOISTURE_GOAL - moisture_pct)) / (100 - MOISTURE_GOAL);
}

/**
 * Measured hot: 55 °C or more from a first to a last reading 15 days apart or more, none colder between, turned 5 times in
 * between. From memory, see HOT_C.
 */
export function was_hot(warmths: readonly Warmth[], turned: readonly string[]): boolean {
  let first: string | undefined;
  for (const { day, temp_c } of [...warmths].sort((a, b) => (a.day < b.day ? -1 : 1))) {
    if (temp_c < HOT_C) {
      first = undefined;
      continue;
    }
    first ??= day;
    const from = first;
    const turns = turned.filter((on) => on >= from && on <= day).length;
    if (days_between(first, day) >= HOT_DAYS && turns >= HOT_TURNS) return true;
  }
  return false;
}

const DAY_MS = 86_400_000;
const days_between = (first: string, last: string): number => (Date.parse(last) - Date.parse(first)) / DAY_MS;
const days_after = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * DAY_MS).toISOString().slice(0, 10);

/** The day from which it may go on beds. */
export const usable_from = (last_added: string, hot: boolean): string =>
  days_after(last_added, hot ? WAIT_HOT : WAIT_COLD);

/** The day to turn it: two weeks after it was turned last, or begun. Common practice, no source. */
export const turn_on = (last: string): string => days_after(last, TURN_DAYS);
