/**
 * Healing a server that was put back to an earlier state: every line this phone holds is asked for, and those the
 * server lacks go back into the outbox, other phones' lines too, in the order the server once had them.
 */
import { read_missing } from '../wire/pull.ts';
import { ask, NOT_OURS, type Stop } from './answers.ts';
import type { CycleDeps } from './cycle.ts';
import { Numbers } from './numbers.ts';
import { unname_photos } from './photo_names.ts';
import { paint } from './records.ts';
import type { Id } from './shapes.ts';
import { read_meta, type EntryRow, type StoreName, type Tx } from './store.ts';

const ASKED_AT_ONCE = 500;

/** How many lines were put back, or why it could not be done now: it begins again with the next cycle. */
export async function heal(deps: CycleDeps, generation: number): Promise<number | Stop> {
  const ids = await deps.store.read(['entries'], (tx) => tx.keys('entries'));
  const missing: Id[] = [];
  const erased: Id[] = [];
  for (let from = 0; from < ids.length; from += ASKED_AT_ONCE) {
    const reply = await ask_missing(deps, ids.slice(from, from + ASKED_AT_ONCE));
    if ('kind' in reply) return reply;
    missing.push(...reply.missing);
    erased.push(...reply.erased);
  }
  const count = await put_back(deps, generation, missing, new Set(erased));
  deps.changed({ lines: [...missing, ...erased], records: true, photos: true });
  return count;
}

async function ask_missing(deps: CycleDeps, ids: readonly Id[]) {
  const request = {
    method: 'POST',
    path: '/api/v1/sync/missing',
    content_type: 'application/json',
    body: JSON.stringify({ ids }),
  } as const;
  const answer = await ask(deps.transport, request, deps.clock.now(), deps.signal);
  if (answer.kind === 'ours') return read_missing(answer.text) ?? NOT_OURS;
  return answer.kind === 'reset' || answer.kind === 'too_large' ? NOT_OURS : answer;
}

const STORES = [
  'entries',
  'outbox',
  'records',
  'photos',
  'pictures',
  'meta',
] as const satisfies readonly StoreName[];

async function put_back(
  deps: CycleDeps,
  generation: number,
  missing: readonly Id[],
  erased: ReadonlySet<Id>,
): Promise<number> {
  return deps.store.write(STORES, async (tx) => {
    const feed = await read_meta(tx, 'feed');
    if (feed === undefined || feed.generation !== generation) return 0;
    const lost = await lost_rows(tx, missing, erased);
    const numbers = await Numbers.of(tx);
    for (const row of lost) await queue_again(tx, numbers, row, deps.clock.now());
    await numbers.keep();
    for (const id of erased) await forget_erased(tx, id);
    await tx.put('meta', { name: 'feed', value: { ...feed, healing: false } });
    return lost.length;
  });
}

/** Those that wait or were refused have their place already. */
async function lost_rows(tx: Tx, missing: readonly Id[], erased: ReadonlySet<Id>): Promise<EntryRow[]> {
  const lost: EntryRow[] = [];
  for (const id of missing) {
    const row = await tx.get('entries', id);
    if (row?.standing === 'sent' && !erased.has(id)) lost.push(row);
  }
  return lost.sort(
    (a, b) => (a.seq ?? Infinity) - (b.seq ?? Infinity) || a.written.device_no - b.written.device_no,
  );
}

async function queue_again(tx: Tx, numbers: Numbers, row: EntryRow, now: number): Promise<void> {
  await tx.put('entries', { ...row, standing: 'waiting' });
  await numbers.queue(row.written, now, recovered(row));
  await paint(tx, row.written);
}

/** It keeps the skew measured when it first came, so that nothing changes place. Where none is known it is sent as new. */
const recovered = ({ clock_skew_ms }: EntryRow): { clock_skew_ms: number } | undefined =>
  clock_skew_ms === undefined ? undefined : { clock_skew_ms };

/** Erased on a person's word, everywhere. What waits or was refused here is told by its own receipt. */
async function forget_erased(tx: Tx, id: Id): Promise<void> {
  const row = await tx.get('entries', id);
  if (row?.standing !== 'sent') return;
  await tx.delete('entries', id);
  await unname_photos(tx, row.written);
}
