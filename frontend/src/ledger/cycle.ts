/** One cycle of the exchange: send lines, take what others wrote, heal if need be, then the photos. */
import { FAILED, type Stop } from './answers.ts';
import type { Clock, Transport } from './ports.ts';
import { begin_anew, pull } from './pull.ts';
import { push } from './push.ts';
import { send_photos } from './send_photos.ts';
import type { Change } from './shapes.ts';
import { read_meta, type MetaRows, type Store } from './store.ts';
import { LedgerTrouble } from './trouble.ts';

export interface CycleDeps {
  readonly store: Store;
  readonly clock: Clock;
  readonly transport: Transport;
  /** What this page was built as; the server may want a newer one (426). */
  readonly build: string;
  /** The cycle's time is over: begin no further request. */
  readonly cut: () => boolean;
  readonly signal?: AbortSignal;
  /** Whether an empty push for lot numbers is worth it now. */
  readonly may_ask_codes: () => boolean;
  readonly changed: (what: Partial<Change>) => void;
}

/** `cut`: all went well, but there is more to do. */
export type Ended = Stop | { readonly kind: 'done' } | { readonly kind: 'cut' };

/** A server that is reset again and again is met with the next cycle, not in a loop. */
const MOST_ROUNDS = 4;

export async function run_cycle(deps: CycleDeps): Promise<Ended> {
  try {
    const ended = await exchange(deps);
    if (await note(deps.store, ended)) deps.changed({ status: true });
    return ended;
  } catch (error) {
    // The phone's own store is full or gone: what was not written will come again.
    if (!(error instanceof LedgerTrouble)) throw error;
    return FAILED;
  }
}

async function exchange(deps: CycleDeps): Promise<Ended> {
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const pushed = await push(deps);
    if (typeof pushed !== 'string') return pushed;
    if (pushed === 'reset') await begin_anew(deps, await generation(deps));
    // A minder's phone gets its own week, not the ledger.
    if (await of_minder(deps)) break;
    const pulled = await pull(deps);
    if (typeof pulled !== 'string') return pulled;
    if (pulled === 'cut') return { kind: 'cut' };
    if (pulled === 'done') break;
  }
  const photos = await send_photos(deps);
  return typeof photos === 'string' ? { kind: photos } : photos;
}

const of_minder = (deps: CycleDeps): Promise<boolean> =>
  deps.store.read(['meta'], async (tx) => (await read_meta(tx, 'people'))?.minder === true);

const generation = (deps: CycleDeps): Promise<number> =>
  deps.store.read(['meta'], async (tx) => (await read_meta(tx, 'feed'))?.generation ?? 0);

/** What stops the exchange until somebody acts is kept, and goes with the first good answer. Was anything new? */
async function note(store: Store, ended: Ended): Promise<boolean> {
  if (ended.kind === 'failed' || ended.kind === 'later') return false;
  const value: MetaRows['halt'] =
    ended.kind === 'halted'
      ? { why: ended.why, ...(ended.detail !== undefined && { detail: ended.detail }) }
      : {};
  return store.write(['meta'], async (tx) => {
    const before = await read_meta(tx, 'halt');
    if (before?.why === value.why && before?.detail === value.detail) return false;
    await tx.put('meta', { name: 'halt', value });
    return true;
  });
}
