import type { Clock, Random } from './ports.ts';
import type { Id } from './shapes.ts';
import type { Store } from './store.ts';

/** What every act of the ledger is given. */
export interface Deps {
  readonly household: Id;
  readonly store: Store;
  readonly clock: Clock;
  readonly random: Random;
  readonly mint_id: () => Id;
}
