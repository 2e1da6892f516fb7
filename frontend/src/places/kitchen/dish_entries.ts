/** A dish was made: what was taken of each lot, from what is on the turn. Pure. */
import type { Body, NewEntry } from '../../ledger/index.ts';
import type { Taken } from './dishes.ts';

/** One take a lot. Weights of a dish are rough, so they are written as guessed; peel and tops leave no piece. */
export function taking(taken: readonly Taken[]): readonly NewEntry[] {
  const by_lot = new Map<string, number>();
  for (const { lot, part, grams } of taken)
    if (part === null) by_lot.set(lot, (by_lot.get(lot) ?? 0) + grams);
  return [...by_lot].map(([lot, grams]): NewEntry => {
    const body: Body = { lot, for: 'eat', grams: Math.round(grams), measured: 'guessed', turning: true };
    return { kind: 'take', body };
  });
}
