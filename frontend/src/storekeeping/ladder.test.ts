// Vectors written by hand from fixtures/reference; the twin is tests/storekeeping/test_ladder.py and test_feeding.py.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { conditions_of, rows_for } from './conditions.ts';
import { check_went } from './feeding.ts';
import { parts_of, rung_of, uses_of } from './ladder.ts';
import {
  STEPS,
  type Group,
  type Law,
  type Question,
  type Rules,
  type Standing,
  type Uses,
  type Went,
} from './rules.ts';

const read = <T>(path: string): T => JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8')) as T;
const rules = read<Rules>('../reference/built/rules.json');
const cases = <T>(name: string): readonly T[] =>
  read<{ cases: T[] }>(`../../../fixtures/vectors/${name}`).cases;

interface UsesCase {
  readonly name: string;
  readonly ask: Question;
  readonly groups: readonly Group[];
  readonly law: Law | null;
  readonly expect: unknown;
}

interface WentCase {
  readonly name: string;
  readonly went: Went;
  readonly crop: string | null;
  readonly findings: readonly string[];
  readonly whole: boolean;
  readonly groups: Readonly<Record<string, Group>>;
  readonly law: Law | null;
  readonly expect: unknown;
}

interface RungCase {
  readonly name: string;
  readonly crop: string;
  readonly standing: readonly Standing[];
  readonly expect: unknown;
}

/** An answer as the vectors write it: cautions and `not_for` over all steps. */
function gathered(uses: Uses): unknown {
  const not_for = uses.steps.flatMap(({ step, not_for }) =>
    not_for.map((one) => `${step} ${one.eater} ${one.row}`),
  );
  return {
    known: uses.known,
    steps: uses.steps.map(({ step }) => step),
    cautions: [...new Set(uses.steps.flatMap(({ cautions }) => cautions))].sort(),
    withheld: Object.fromEntries(uses.withheld.map(({ step, code }) => [step, code])),
    animals: Object.fromEntries(
      uses.animals.map(({ kind, verdict, code }) => [
        kind,
        code === undefined || code === verdict ? verdict : `${verdict}:${code}`,
      ]),
    ),
    not_for: not_for.sort(),
  };
}

describe('the uses that are left', () => {
  it.each(cases<UsesCase>('ladder.json'))('$name', ({ ask, groups, law, expect: wanted }) => {
    expect(gathered(uses_of(rules, ask, groups, law))).toEqual(wanted);
  });

  it('gives steps in the order of the ladder', () => {
    const { steps } = uses_of(rules, { crop: 'carrot', findings: ['sound'], cut_in: 'store' }, [
      { kind: 'rabbit' },
    ]);
    const order = steps.map(({ step }) => STEPS.indexOf(step));
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  it('knows a use for every crop and finding, or says it does not', () => {
    for (const crop of Object.keys(rules.crops)) {
      for (const finding of Object.keys(rules.findings)) {
        const { known, steps } = uses_of(rules, { crop, findings: [finding], cut_in: 'store' });
        expect(steps.length).toBeGreaterThan(0);
        if (Object.keys(rows_for(rules, crop, finding)).length === 0) expect(known).toBe(false);
      }
    }
  });
});

describe('what is never fed', () => {
  it.each(cases<WentCase>('ladder_went.json'))(
    '$name',
    ({ went, crop, findings, whole, groups, law, expect: wanted }) => {
      const refusal = check_went(rules, went, { crop, findings, whole }, groups, law);
      expect(refusal && { code: refusal.code, kind: refusal.kind }).toEqual(wanted);
    },
  );
});

describe('the rung a lot stands on', () => {
  it.each(cases<RungCase>('ladder_rung.json'))('$name', ({ crop, standing, expect: wanted }) => {
    expect(rung_of(rules, crop, standing)).toEqual(wanted);
  });
});

describe('the state of a piece', () => {
  it('is old from the age in its row', () => {
    expect(conditions_of(rules, { crop: 'carrot', findings: ['sound'], age_days: 240 })).toEqual(['sound']);
    expect(conditions_of(rules, { crop: 'carrot', findings: ['sound'], age_days: 241 })).toEqual(['old']);
  });

  it('names its parts, the stored one first', () => {
    expect(parts_of(rules, 'cabbage', ['yellowing'])).toEqual(['head', 'outer leaves']);
  });
});
