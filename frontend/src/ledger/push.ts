/** Sending what waits: batches in the order of recording, as they were written, one in flight. */
import { read_push_reply, type PushBody, type PushLine } from '../wire/push.ts';
import { ask, NOT_OURS, type Answer, type Stop } from './answers.ts';
import type { CycleDeps } from './cycle.ts';
import { codes_left } from './numbers.ts';
import { apply_reply, to_tray, type Sent } from './receipts.ts';
import { read_meta, type OutboxRow } from './store.ts';
import { utc_text } from './times.ts';

const MOST_LINES = 200;
/** 512 kB with room for the envelope. */
const MOST_BYTES = 500_000;
/** Under so many lot numbers the phone asks for more, also with nothing else to send: a block is gone with no signal. */
const FEW_CODES = 40;

/** Everything in the outbox once; what must wait there (a reference still unknown) holds up nothing behind it. */
export async function push(deps: CycleDeps): Promise<Stop | 'reset' | 'done'> {
  let after = -1;
  let most = MOST_LINES;
  let first = true;
  for (;;) {
    const sent = await next_batch(deps, after, most);
    if (sent === undefined || (sent.rows.length === 0 && !(first && sent.wants_codes))) return 'done';
    first = false;
    if (deps.cut()) return 'done';
    const answer = await send(deps, sent);
    if (answer.kind === 'too_large') {
      const halved = await too_large(deps, sent, answer);
      if (typeof halved !== 'number') return halved;
      most = halved;
      continue;
    }
    if (answer.kind === 'reset') return 'reset';
    if (answer.kind !== 'ours') return answer;
    const reply = read_push_reply(answer.text);
    if (reply === undefined) return NOT_OURS;
    await apply_reply(deps.store, sent, reply, deps.clock.now());
    deps.changed({ lines: sent.rows.map((row) => row.id), records: true, photos: true, tray: true });
    after = sent.rows.at(-1)?.no ?? after;
  }
}

interface Batch extends Sent {
  readonly codes: PushBody['codes'];
  readonly wants_codes: boolean;
}

async function next_batch(deps: CycleDeps, after: number, most: number): Promise<Batch | undefined> {
  return deps.store.read(['outbox', 'meta'], async (tx) => {
    const self = await read_meta(tx, 'self');
    const feed = await read_meta(tx, 'feed');
    if (self === undefined || feed === undefined) return undefined;
    const known = await read_meta(tx, 'codes');
    const codes = { left: codes_left(known), to: known?.given_to ?? 0 };
    const wants_codes = codes.left < FEW_CODES && deps.may_ask_codes();
    const rows = fitting(await tx.all('outbox', after, most));
    return { rows, device: self.device, generation: feed.generation, codes, wants_codes };
  });
}

/** As many as go into one request, one at least. */
function fitting(rows: readonly OutboxRow[]): readonly OutboxRow[] {
  let bytes = 0;
  const count = rows.findIndex((row) => (bytes += size_of(row)) > MOST_BYTES);
  return count === -1 ? rows : rows.slice(0, Math.max(count, 1));
}

const encoder = new TextEncoder();
const size_of = (row: OutboxRow): number => encoder.encode(JSON.stringify(as_sent(row))).length + 1;

const as_sent = ({ written, recovered }: OutboxRow): PushLine => ({
  written,
  ...(recovered && { recovered }),
});

async function send(deps: CycleDeps, sent: Batch): Promise<Answer> {
  const body: PushBody = {
    device: sent.device,
    sent_at: utc_text(deps.clock.now()),
    build: deps.build,
    codes: sent.codes,
    lines: sent.rows.map(as_sent),
  };
  const request = {
    method: 'POST',
    path: '/api/v1/sync/push',
    content_type: 'application/json',
    body: JSON.stringify(body),
  } as const;
  return ask(deps.transport, request, deps.clock.now(), deps.signal);
}

/** Half of it next time; one line that is too large by itself goes to the tray, if our own server said so. */
async function too_large(
  deps: CycleDeps,
  sent: Sent,
  answer: Extract<Answer, { kind: 'too_large' }>,
): Promise<number | Stop> {
  const [only, second] = sent.rows;
  if (only === undefined || second !== undefined) return Math.max(1, Math.floor(sent.rows.length / 2));
  if (!answer.ours) return NOT_OURS;
  const refused_at = utc_text(deps.clock.now());
  const refusal = { code: 'too_large', message: answer.detail, facts: {}, refused_at };
  await deps.store.write(['entries', 'outbox', 'records', 'photos', 'tray', 'meta'], async (tx) => {
    if ((await tx.get('outbox', only.no)) !== undefined) await to_tray(tx, only, refusal);
  });
  deps.changed({ lines: [only.id], records: true, photos: true, tray: true });
  return MOST_LINES;
}
