// Any order, any repetition, one by one or all at once: the same stock. The twin is tests/storekeeping/test_fold_orders.py.
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { balances, type Vector } from '../../../tests/storekeeping/agreement.ts';
import { fold_all, fold_on, lot_at, lot_ids, state_at, went_of } from './fold.ts';
import type { FoldState, Line } from './state.ts';

const read = (path: string): readonly Vector[] => {
  const text = readFileSync(new URL(path, import.meta.url), 'utf8');
  return (JSON.parse(text) as { vectors: Vector[] }).vectors;
};
const vectors = [
  ...read('../../../fixtures/vectors/fold_by_hand.json'),
  ...read('../../../fixtures/vectors/fold_generated.json'),
];
const a_vector = fc.constantFrom(...vectors);

/** A vector with its lines in another order. */
const shuffled = a_vector.chain((vector) =>
  fc.record({ vector: fc.constant(vector), lines: shuffle(vector.lines) }),
);

function shuffle(lines: readonly Line[]): fc.Arbitrary<Line[]> {
  return fc.shuffledSubarray([...lines], { minLength: lines.length, maxLength: lines.length });
}

function state_of({ setting, today }: Vector, lines: readonly Line[]): FoldState {
  return state_at(fold_all(lines, setting), today);
}

function strike_of(struck: string, number: number): Line {
  const written = {
    id: `no-${number}`,
    device: 'Z',
    device_no: number,
    person: 'zoe',
    kind: 'strike',
    happened_at: '2027-06-01T12:00:00.000+02:00',
    dated: 'person',
    body: {},
    strikes: struck,
  } as const;
  return { written };
}

/** What a lot has, without the entries it had it from. */
function stock({ lots, went, chores, chores_done, claims, facts }: FoldState) {
  const bare = Object.values(lots).map((lot) => ({ ...lot, history: [] }));
  return { bare, went, chores, chores_done, claims, facts };
}

describe('the fold', () => {
  it('gives the same for any order and any repetition', () => {
    fc.assert(
      fc.property(shuffled, fc.integer({ min: 0, max: 4 }), ({ vector, lines }, again) => {
        expect(state_of(vector, [...lines, ...vector.lines.slice(0, again)])).toEqual(
          state_of(vector, vector.lines),
        );
      }),
    );
  });

  it('gives one by one what it gives all at once, and its balance holds after each entry', () => {
    fc.assert(
      fc.property(shuffled, ({ vector, lines }) => {
        const folded = fold_all([], vector.setting);
        for (const [at, line] of lines.entries()) {
          fold_on(folded, line);
          const now = state_at(folded, vector.today);
          expect(now).toEqual(state_of(vector, lines.slice(0, at + 1)));
          expect(Object.values(now.lots).every(balances)).toBe(true);
        }
      }),
    );
  });

  it('leaves a lot as it was that it does not name as touched', () => {
    fc.assert(
      fc.property(shuffled, ({ vector, lines }) => {
        const last = lines.at(-1);
        if (last === undefined) return;
        const folded = fold_all(lines.slice(0, -1), vector.setting);
        const told = () =>
          new Map(
            lot_ids(folded).map((lot) => [lot, [lot_at(folded, lot, vector.today), went_of(folded, lot)]]),
          );
        const before = told();
        const touched = fold_on(folded, last);
        const now = told();
        for (const lot of new Set([...before.keys(), ...now.keys()])) {
          if (!touched.has(lot)) expect(now.get(lot)).toEqual(before.get(lot));
        }
      }),
    );
  });

  it('has a struck entry as if it had never been', () => {
    fc.assert(
      fc.property(shuffled, fc.nat(), ({ vector, lines }, pick) => {
        const plain = lines.filter((line) => line.written.kind !== 'strike');
        const struck = plain[pick % plain.length]?.written.id ?? '';
        const without = plain.filter((line) => line.written.id !== struck);
        expect(stock(state_of(vector, [strike_of(struck, 1), ...plain]))).toEqual(
          stock(state_of(vector, without)),
        );
      }),
    );
  });

  it('has strikes thrown about one by one as all at once', () => {
    const targets = fc.array(fc.nat(), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(a_vector, targets, (vector, picks) => {
        const ids = [...vector.lines.map((line) => line.written.id), 'no-0', 'no-1', 'no-2', 'no-3'];
        const strikes = picks.map((pick, at) => strike_of(ids[pick % ids.length] ?? '', at));
        const folded = fold_all(vector.lines, vector.setting);
        for (const [at, strike] of strikes.entries()) {
          fold_on(folded, strike);
          const all = [...vector.lines, ...strikes.slice(0, at + 1)];
          expect(state_at(folded, vector.today)).toEqual(state_of(vector, all));
        }
      }),
    );
  });

  it('has a waiting line that is sent, refused or mended as if it had come so', () => {
    const skews = fc.constantFrom(0, 90_000, 500_000, -90_000_000);
    fc.assert(
      fc.property(a_vector, fc.nat(), fc.nat(3), skews, (vector, pick, way, clock_skew_ms) => {
        const lines = [...new Map(vector.lines.map((line) => [line.written.id, line])).values()];
        const at = pick % lines.length;
        const known = lines[at];
        if (known === undefined) return;
        const { written } = known;
        const mended = { ...written, device_no: written.device_no + 100, dated: 'person' as const };
        const waiting: Line = { written };
        const ways: readonly Line[] = [
          waiting,
          { written, seq: 99, clock_skew_ms },
          { written, standing: 'refused' },
          { written: mended },
        ];
        const comes = ways[way] ?? waiting;
        const folded = fold_all(lines.with(at, waiting), vector.setting);
        fold_on(folded, comes);
        expect(state_at(folded, vector.today)).toEqual(state_of(vector, lines.with(at, comes)));
      }),
    );
  });
});
