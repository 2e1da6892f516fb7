/** Amounts offered when something is taken: what this lot's takes were most often, and round ones beside it. */
import type { AmountBody } from '../../storekeeping/shapes';
import type { LotState } from '../../storekeeping/state';
import { house } from './house.svelte';
import { told_by } from './amount.svelte';

export interface Usual {
  readonly key: string;
  readonly amount: AmountBody;
  readonly most: boolean;
}

const ROUND = { grams: [500, 1000, 2000], pieces: [1, 2, 4] } as const;

/** The commonest of what was written, rounded as hands weigh; undefined before the first take. */
export function commonest(values: readonly number[], to: number): number | undefined {
  const counts = new Map<number, number>();
  for (const value of values) {
    const near = Math.max(to, Math.round(value / to) * to);
    counts.set(near, (counts.get(near) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0];
}

export function usual_takes(lot: LotState): readonly Usual[] {
  const by = told_by(lot.crop);
  const written = lot.history
    .filter((past) => past.kind === 'take' && past.counts)
    .map((past) => house.lines.get(past.id)?.written.body[by])
    .filter((value): value is number => typeof value === 'number');
  const most = commonest(written, by === 'grams' ? 250 : 0.5);
  const there = lot.shown[by] ?? Infinity;
  const amounts = [...new Set([...ROUND[by], ...(most === undefined ? [] : [most])])]
    .filter((value) => value <= there)
    .sort((a, b) => a - b);
  return amounts.map((value) => ({ key: String(value), amount: { [by]: value }, most: value === most }));
}
