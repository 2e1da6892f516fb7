/** The phone's half of the ledger: what screens import. Everything else in this folder is inside. */
import type { Access } from './access.ts';
import type { Ledger } from './face.ts';
import type { Id } from './shapes.ts';

export type * from './shapes.ts';
export type * from './face.ts';
export type * from './access.ts';

/** A store this build must not touch, or cannot have: say which, keep everything. */
export type Opened =
  | { readonly ok: true; readonly ledger: Ledger }
  | { readonly ok: false; readonly why: 'store_newer' | 'store_blocked' | 'store_closed' };

/** Open a household's store on this phone. Needs no network. */
export async function open(household: Id): Promise<Opened> {
  throw new Error(`not built yet: ${household}`);
}

/** Before a household is open. */
export function access(): Access {
  throw new Error('not built yet');
}
