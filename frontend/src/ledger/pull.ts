/** Taking what others wrote: pages of the feed, each with its cursor in one transaction. */
import { read_page, write_cursor, type Cursor, type Page } from '../wire/pull.ts';
import { ask, NOT_OURS, type Stop } from './answers.ts';
import type { CycleDeps } from './cycle.ts';
import { heal } from './heal.ts';
import { put_rows } from './rows.ts';
import type { Change } from './shapes.ts';
import { read_meta, type MetaRows, type StoreName } from './store.ts';

const PAGE = 500;

/** `healed`: lines the server lacked were put back in the outbox, so push again. */
export async function pull(deps: CycleDeps): Promise<Stop | 'done' | 'healed' | 'cut'> {
  let healed = false;
  let ahead: Ahead | undefined;
  for (;;) {
    if (deps.cut()) return 'cut';
    const feed = await deps.store.read(['meta'], (tx) => read_meta(tx, 'feed'));
    if (feed === undefined) return 'done';
    const page = await (ahead && same_place(ahead.feed, feed) ? ahead.page : ask_page(deps, feed));
    ahead = undefined;
    if (page === 'reset') {
      await begin_anew(deps, feed.generation);
      continue;
    }
    if ('kind' in page) return page;
    // While lines may be lacking on the server, each page is to tell of a reset after what was asked before it.
    if (page.more && page.rows.length > 0 && !feed.healing) ahead = ask_ahead(deps, feed, page);
    const now = await apply_page(deps, feed, page);
    // Only under a cursor of the present epoch: a reset after this moment is told by the next page.
    if (now.healing) {
      const found = await heal(deps, now.generation);
      if (typeof found !== 'number') return found;
      healed ||= found > 0;
    }
    if (page.more && page.rows.length > 0) continue;
    await sweep(deps, now);
    return healed ? 'healed' : 'done';
  }
}

/** Asked for while the page before it is still being written. */
interface Ahead {
  readonly feed: MetaRows['feed'];
  readonly page: ReturnType<typeof ask_page>;
}

/** Used only if the cursor then stands where the page before was to move it. */
function ask_ahead(deps: CycleDeps, asked: MetaRows['feed'], before: Page): Ahead | undefined {
  if (deps.cut()) return undefined;
  const feed = moved_by(asked, before);
  return { feed, page: ask_page(deps, feed) };
}

/** Until its first page a phone does not know which state of the server its answers came from. */
const moved_by = (feed: MetaRows['feed'], { next, rows }: Page): MetaRows['feed'] => ({
  ...feed,
  generation: feed.cursor === undefined ? feed.generation + 1 : feed.generation,
  cursor: { epoch: next.epoch, seq: rows.at(-1)?.seq ?? feed.cursor?.seq ?? 0 },
});

async function ask_page(deps: CycleDeps, feed: MetaRows['feed']): Promise<Page | Stop | 'reset'> {
  const path = `/api/v1/sync/pull?after=${write_cursor(feed.cursor)}&limit=${String(PAGE)}`;
  const answer = await ask(deps.transport, { method: 'GET', path }, deps.clock.now(), deps.signal);
  if (answer.kind === 'reset') return 'reset';
  if (answer.kind === 'too_large') return NOT_OURS;
  if (answer.kind !== 'ours') return answer;
  const page = read_page(answer.text);
  return page !== undefined && follows(page, feed.cursor) ? page : NOT_OURS;
}

/** Rows in order behind the cursor and of its epoch, and none beyond what the page says comes next. */
function follows(page: Page, cursor: Cursor | undefined): boolean {
  if (cursor !== undefined && page.next.epoch !== cursor.epoch) return false;
  let last = cursor?.seq ?? 0;
  for (const { seq } of page.rows) {
    if (seq <= last) return false;
    last = seq;
  }
  return page.next.seq >= last;
}

const STORES = ['entries', 'records', 'sheets', 'conflicts', 'meta'] as const satisfies readonly StoreName[];

/** Every row is written, own ones too. Another window may have been faster: then nothing is left to do. */
async function apply_page(deps: CycleDeps, asked: MetaRows['feed'], page: Page): Promise<MetaRows['feed']> {
  const feed = await deps.store.write(STORES, async (tx) => {
    const now = await read_meta(tx, 'feed');
    if (now === undefined || !same_place(now, asked)) return now ?? asked;
    const moved = { ...moved_by(now, page), last_pull: deps.clock.now() };
    await put_rows(tx, page.rows, moved.generation);
    await tx.put('meta', { name: 'feed', value: moved });
    return moved;
  });
  deps.changed(what_came(page));
  return feed;
}

const what_came = (page: Page): Partial<Change> => ({
  lines: page.rows.flatMap((row) => (row.type === 'sheet' ? [] : [row.written.id])),
  records: page.rows.some((row) => row.type !== 'sheet' && row.outcome !== undefined),
  sheets: page.rows.some((row) => row.type === 'sheet'),
});

const same_place = (a: MetaRows['feed'], b: MetaRows['feed']): boolean =>
  a.generation === b.generation && write_cursor(a.cursor) === write_cursor(b.cursor);

/** The server was put back to an earlier state, or something was erased: all numbers are void. */
export async function begin_anew(deps: CycleDeps, generation: number): Promise<void> {
  await deps.store.write(['meta', 'photos'], async (tx) => {
    const feed = await read_meta(tx, 'feed');
    if (feed === undefined || feed.generation !== generation) return;
    const { cursor, ...rest } = feed;
    const value = { ...rest, generation: generation + 1, healing: true, sweeping: true };
    await tx.put('meta', { name: 'feed', value });
    for (const photo of await tx.all('photos')) {
      if (photo.standing === 'sent' && photo.whole) await tx.put('photos', { ...photo, standing: 'asked' });
    }
  });
}

/** After the first whole pull of a generation: what the server no longer has of records and sheets goes. */
async function sweep(deps: CycleDeps, now: MetaRows['feed']): Promise<void> {
  const { generation } = now;
  if (!now.sweeping) return;
  await deps.store.write(['records', 'sheets', 'meta'], async (tx) => {
    const feed = await read_meta(tx, 'feed');
    if (feed === undefined || !feed.sweeping || feed.healing || feed.generation !== generation) return;
    for (const row of await tx.all('records')) {
      if (row.generation < generation && row.painted.length === 0) await tx.delete('records', row.key);
    }
    for (const row of await tx.all('sheets')) {
      if (row.generation < generation) await tx.delete('sheets', row.key);
    }
    await tx.put('meta', { name: 'feed', value: { ...feed, sweeping: false } });
  });
  deps.changed({ records: true, sheets: true });
}
