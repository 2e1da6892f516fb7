/** How the outcome of a vector is held against what it expects. Twin: `agreement.py`. */
import type {
  FoldState,
  Line,
  LotState,
  Setting,
} from "../../frontend/src/storekeeping/state.ts";

export interface Vector {
  readonly name: string;
  readonly rules: readonly string[];
  readonly setting: Setting;
  readonly today: string;
  readonly lines: readonly Line[];
  readonly expect: Readonly<Record<string, unknown>>;
}

/** Pieces, grams, grams a piece, shares. */
const NEAR = 0.01;
const OUTFLOWS = [
  "eaten",
  "given",
  "seed",
  "shrink",
  "cured",
  "moved",
  "put_by",
  "unknown",
] as const;

/** What in the outcome is not as expected, and where; the balance is checked in each vector (F15). */
export function disagreements({ expect }: Vector, state: FoldState): string[] {
  const found = [...differences(expect, state, "")];
  const expected = expect["lots"];
  if (is_record(expected)) {
    const [one, other] = [
      Object.keys(expected).sort().join(),
      Object.keys(state.lots).sort().join(),
    ];
    if (one !== other) found.push(`lots: ${one}, not ${other}`);
  }
  for (const lot of Object.values(state.lots))
    if (!balances(lot)) found.push(`balance of ${lot.id}`);
  return found;
}

/** put away + found = there + all that left, where grams were known all along. */
export function balances({ tallies }: LotState): boolean {
  if (!tallies.whole) return true;
  const left = OUTFLOWS.reduce((sum, name) => sum + tallies[name], 0);
  return (
    Math.abs(
      (tallies.put_away ?? NaN) + tallies.found - (tallies.there ?? NaN) - left,
    ) <= NEAR
  );
}

function* differences(
  expected: unknown,
  actual: unknown,
  at: string,
): Generator<string> {
  if (Array.isArray(expected) && Array.isArray(actual)) {
    if (expected.length !== actual.length)
      yield `${at}: ${expected.length} expected, ${actual.length} there`;
    for (const [i, one] of expected.entries()) {
      if (i < actual.length) yield* differences(one, actual[i], `${at}/${i}`);
    }
  } else if (is_record(expected) && is_record(actual)) {
    for (const [key, value] of Object.entries(expected)) {
      if (!(key in actual) && value !== null) yield `${at}/${key} is missing`;
      else yield* differences(value, actual[key] ?? null, `${at}/${key}`);
    }
  } else if (!same(expected, actual)) {
    yield `${at}: ${JSON.stringify(expected)} expected, ${JSON.stringify(actual)} there`;
  }
}

function is_record(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function same(expected: unknown, actual: unknown): boolean {
  if (typeof expected === "number" && typeof actual === "number")
    return Math.abs(expected - actual) <= NEAR;
  return expected === actual;
}
