/** For tests: a phone with a store in memory, a clock one sets, and a server one scripts. */
import { run_cycle, type CycleDeps, type Ended } from './cycle.ts';
import type { Deps } from './deps.ts';
import { write_let_in } from './entering.ts';
import { id_mint } from './ids.ts';
import { open_indexed_store } from './indexed_store.ts';
import type { Clock, Random, Reply, Request, Transport } from './ports.ts';
import { record_all } from './record.ts';
import type { Body, Change, Line, NewEntry } from './shapes.ts';
import type { Row, Store, StoreName } from './store.ts';

export const HOUSEHOLD = '0190c1a5-0000-7000-8000-00000000000a';
export const DEVICE = '0190c1a5-0000-7000-8000-00000000000d';
export const RUNA = '0190c1a5-0000-7000-8000-0000000000a1';
export const TIBOR = '0190c1a5-0000-7000-8000-0000000000a2';
export const LOT = '0190c1a5-0000-7000-8000-000000000001';

export class SetClock implements Clock {
  at = Date.UTC(2026, 10, 25, 9, 24, 53, 123);
  offset = 60;
  now(): number {
    return this.at;
  }
  offset_minutes(): number {
    return this.offset;
  }
}

/** Counts up: the same bytes in every run. */
export function counting_random(): Random {
  let next = 0;
  return {
    bytes: (count) => Uint8Array.from({ length: count }, () => (next += 1) % 256),
    share: () => 0.5,
  };
}

let opened = 0;

export const fresh_name = (): string => `test-${String((opened += 1))}`;

/** A store with a phone let in: two people write on it, lot numbers 1 to 40. */
export async function let_in_store(name = fresh_name(), device = DEVICE): Promise<Store> {
  const store = await open_indexed_store(name);
  await write_let_in(store, {
    household: HOUSEHOLD,
    name: 'Invented',
    device,
    people: [RUNA, TIBOR],
    demo: false,
    minder: false,
    last_no: 0,
    codes: { from: 1, to: 40 },
  });
  return store;
}

export interface TestPhone extends Deps {
  readonly clock: SetClock;
  /** Requests sent, oldest first. */
  readonly sent: Request[];
  /** Answers requests; undefined is no answer. */
  answer: (request: Request) => Reply | undefined | Promise<Reply | undefined>;
  readonly changes: Partial<Change>[];
  cycle(more?: Partial<CycleDeps>): Promise<Ended>;
  rows<S extends StoreName>(store: S): Promise<readonly Row<S>[]>;
  keep(...entries: NewEntry[]): Promise<readonly Line[]>;
}

export async function test_phone(store?: Store): Promise<TestPhone> {
  const kept = store ?? (await let_in_store());
  const clock = new SetClock();
  const random = counting_random();
  const phone: TestPhone = {
    household: HOUSEHOLD,
    store: kept,
    clock,
    random,
    mint_id: id_mint(clock, random),
    sent: [],
    changes: [],
    answer: () => undefined,
    cycle: (more) =>
      run_cycle({
        store: kept,
        clock,
        transport: transport_of(phone),
        build: '7',
        cut: () => false,
        may_ask_codes: () => false,
        changed: (what) => phone.changes.push(what),
        ...more,
      }),
    rows: (name) => kept.read([name], (tx) => tx.all(name)),
    keep: (...entries) => record_all(phone)(entries),
  };
  return phone;
}

const transport_of = (phone: TestPhone): Transport => ({
  async send(request) {
    phone.sent.push(request);
    return phone.answer(request);
  },
});

export const take = (grams = 100, more: Partial<NewEntry> = {}): NewEntry => ({
  kind: 'take',
  body: { lot: LOT, grams, for: 'eat' },
  ...more,
});

export const json = (value: unknown, status = 200): Reply => ({
  status,
  content_type: 'application/json',
  text: JSON.stringify(value),
});

export const problem = (status: number, code: string, more: Partial<Reply> = {}): Reply => ({
  status,
  content_type: 'application/problem+json',
  text: JSON.stringify({
    type: 'about:blank',
    title: code,
    status,
    detail: `${code}, in words`,
    code,
    facts: {},
  }),
  ...more,
});

export const html = (status = 200): Reply => ({
  status,
  content_type: 'text/html',
  text: '<!doctype html><title>Log in to the train</title>',
});

export const NOW_TEXT = '2026-11-25T09:24:54.000Z';

/** A page of the feed. */
export const page = (rows: readonly Body[], next: string, more = false): Reply =>
  json({ rows, next, more, head: next, now: NOW_TEXT });

export const nothing_new = (cursor = '1.0'): Reply => page([], cursor);

/** The lines of a push, as sent. */
export function lines_of(
  request: Request,
): { written: Line['written']; recovered?: { clock_skew_ms: number } }[] {
  const body: { lines: { written: Line['written'] }[] } = JSON.parse(String(request.body));
  return body.lines;
}

export const is_push = (request: Request): boolean => request.path === '/api/v1/sync/push';
export const is_pull = (request: Request): boolean => request.path.startsWith('/api/v1/sync/pull');
export const is_missing = (request: Request): boolean => request.path === '/api/v1/sync/missing';

/** A server that takes every line, and has nothing new to tell. */
export function takes_all(first_seq = 1): (request: Request) => Reply {
  let seq = first_seq;
  return (request) => {
    if (!is_push(request)) return is_missing(request) ? json({ missing: [], erased: [] }) : nothing_new();
    const receipts = lines_of(request).map(({ written }) => ({
      id: written.id,
      result: 'accepted',
      seq: seq++,
    }));
    return json({ receipts, now: NOW_TEXT, clock_skew_ms: 900 });
  };
}

/** The row by which a line comes in the feed. */
export function row_of(line: Line, seq: number, more: Body = {}): Body {
  return {
    seq,
    type: line.written.kind === 'edit' ? 'edit' : 'entry',
    written: JSON.parse(JSON.stringify(line.written)),
    body_hash: '0'.repeat(64),
    received_at: NOW_TEXT,
    clock_skew_ms: 900,
    ...more,
  };
}
