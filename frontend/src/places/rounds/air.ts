/** The dials by the door: what they showed last, what was read now, and what is odd about it. Pure. */
import type { Body, Id } from '../../ledger/index.ts';
import type { BodyOf } from '../../storekeeping/shapes.ts';
import type { Fact } from '../../storekeeping/state.ts';
import type { AirInHand } from './draft.ts';

export const DIALS = ['temp_c', 'rh_pct', 'low_c', 'high_c'] as const;
export type DialName = (typeof DIALS)[number];

/** What each dial showed last, and since when the marks of coldest and warmest stand. */
export interface LastAir {
  readonly values: Readonly<Partial<Record<DialName, number>>>;
  readonly day?: string;
  readonly since?: string;
}

/** Where the steps begin when nothing was ever read: a cold, damp store, or a freezer. Ours, no source. */
const STARTS: Readonly<Record<DialName, number>> = { temp_c: 4, rh_pct: 85, low_c: 2, high_c: 6 };
const FREEZER = 'freezer';
const FREEZER_C = -18;

export const startOf = (dial: DialName, space_kind: string): number =>
  space_kind === FREEZER && dial !== 'rh_pct' ? FREEZER_C : STARTS[dial];

/** A freezer has no damp to read. */
export const hasDamp = (space_kind: string): boolean => space_kind !== FREEZER;

const reading = (fact: Fact): BodyOf<'reading'> => fact.body as BodyOf<'reading'>;

/** Facts need not be in order. */
export function lastAir(facts: readonly Fact[], space: Id): LastAir {
  const readings = facts
    .filter((fact) => fact.kind === 'reading' && reading(fact).space === space)
    .sort((a, b) => b.when_ms - a.when_ms);
  const values: Partial<Record<DialName, number>> = {};
  for (const dial of DIALS) {
    const value = readings.map((fact) => reading(fact)[dial]).find((shown) => shown !== undefined);
    if (value !== undefined) values[dial] = value;
  }
  const marked = readings.find(
    (fact) => reading(fact).low_c !== undefined || reading(fact).high_c !== undefined,
  );
  const day = readings[0]?.day;
  return {
    values,
    ...(day === undefined ? {} : { day }),
    ...(marked === undefined ? {} : { since: marked.day }),
  };
}

export const readCount = (air: AirInHand): number => DIALS.filter((dial) => air[dial] !== undefined).length;

/** A reading, or nothing where no dial was touched: what nobody read is not written. */
export function readingBody(space: Id, round: Id, air: AirInHand, last: LastAir): Body | undefined {
  if (readCount(air) === 0) return undefined;
  const read = Object.fromEntries(
    DIALS.filter((dial) => air[dial] !== undefined).map((dial) => [dial, air[dial] ?? 0]),
  );
  const marks = air.low_c !== undefined || air.high_c !== undefined;
  return { space, round, ...read, ...(marks && last.since !== undefined ? { since: last.since } : {}) };
}

export type Odd =
  | { readonly odd: 'low_above_high' }
  | { readonly odd: 'outside_marks' }
  | { readonly odd: 'far_off'; readonly dial: DialName; readonly was: number };

/** Far from last time: worth asking once. Ours, no source. [°C, %] */
const FAR: Readonly<Record<DialName, number>> = { temp_c: 8, rh_pct: 30, low_c: 10, high_c: 10 };

/**
 * What is odd about the numbers: the coldest above the warmest cannot be and must be set again; the rest is asked about
 * once and then taken.
 */
export function oddIn(air: AirInHand, last: LastAir): Odd | undefined {
  const { temp_c, low_c, high_c } = air;
  if (low_c !== undefined && high_c !== undefined && low_c > high_c) return { odd: 'low_above_high' };
  if (temp_c !== undefined && ((low_c ?? temp_c) > temp_c || (high_c ?? temp_c) < temp_c))
    return { odd: 'outside_marks' };
  for (const dial of DIALS) {
    const now = air[dial];
    const was = last.values[dial];
    if (now !== undefined && was !== undefined && Math.abs(now - was) > FAR[dial])
      return { odd: 'far_off', dial, was };
  }
  return undefined;
}

/** This near to freezing it is said. Fresh produce freezes some tenths below nought; ours, no source. [°C] */
const NEAR_FROST_C = 1;

/** Warmer than this a freezer is looked through for packs gone soft. Ours, no source; kept at -18. [°C] */
const FREEZER_WARM_C = -12;

/** The warmest of what was read in a freezer, where packs may have gone soft. */
export function warmFreezer(air: AirInHand, space_kind: string): number | undefined {
  if (space_kind !== FREEZER) return undefined;
  const warm = [air.temp_c, air.high_c].filter((value) => value !== undefined);
  const warmest = warm.length > 0 ? Math.max(...warm) : undefined;
  return warmest !== undefined && warmest > FREEZER_WARM_C ? warmest : undefined;
}

/** The coldest of what was read, where it is near frost. */
export function nearFrost(air: AirInHand, space_kind: string): number | undefined {
  if (space_kind === FREEZER) return undefined;
  const cold = [air.temp_c, air.low_c].filter((value) => value !== undefined);
  const coldest = cold.length > 0 ? Math.min(...cold) : undefined;
  return coldest !== undefined && coldest <= NEAR_FROST_C ? coldest : undefined;
}
