/** What is kept for seed in a lot (docs/fold.md, F13). Pure. */
import type { Amount, SeedKept } from '../../storekeeping/state.ts';
import { all_for_seed } from './offer.ts';

interface WithSeed {
  readonly seed: SeedKept;
  readonly shown: Amount;
}

export const some_for_seed = ({ seed }: WithSeed): boolean => (seed.pieces ?? 0) > 0 || (seed.grams ?? 0) > 0;

/** Some of it, and not all: then it matters which piece is in the hand. */
export const part_for_seed = (lot: WithSeed): boolean => some_for_seed(lot) && !all_for_seed(lot);
