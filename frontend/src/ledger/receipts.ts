/**
 * What a receipt does, in one transaction: a line leaves the outbox by its own receipt only, and by the number it
 * had when it was sent. A line the reply does not name stays where it is.
 */
import type { PushReply, Receipt } from '../wire/push.ts';
import { same_written } from '../wire/written.ts';
import { Numbers, with_block } from './numbers.ts';
import { name_photos } from './photo_names.ts';
import { unpaint } from './records.ts';
import type { Id, Refusal } from './shapes.ts';
import { read_meta, type OutboxRow, type Store, type StoreName, type Tx } from './store.ts';
import { utc_text } from './times.ts';

const STORES = [
  'entries',
  'outbox',
  'records',
  'photos',
  'tray',
  'meta',
] as const satisfies readonly StoreName[];

/** So long may what a line names be on its way from another phone. */
const UNKNOWN_FOR_MS = 14 * 24 * 3_600_000;

/** What was sent, and in which state of the server. */
export interface Sent {
  readonly rows: readonly OutboxRow[];
  readonly device: Id;
  readonly generation: number;
}

type Refused = Extract<Receipt, { result: 'refused' }>;

/** An answer from before a reset is void: what it took may be gone. */
export async function apply_reply(store: Store, sent: Sent, reply: PushReply, now: number): Promise<void> {
  await store.write(STORES, async (tx) => {
    const feed = await read_meta(tx, 'feed');
    if (feed?.generation !== sent.generation) return;
    const receipts = new Map(reply.receipts.map((receipt) => [receipt.id, receipt]));
    const skew = reply.clock_skew_ms;
    for (const row of sent.rows)
      await apply_receipt(tx, row, receipts.get(row.id), {
        ...sent,
        skew,
        now,
        pulled_to: feed.cursor?.seq ?? 0,
      });
    await take_codes(tx, reply);
    await take_new_device(tx, sent.device, reply);
  });
}

async function apply_receipt(
  tx: Tx,
  sent: OutboxRow,
  receipt: Receipt | undefined,
  told: {
    readonly generation: number;
    readonly skew: number | undefined;
    readonly now: number;
    readonly pulled_to: number;
  },
): Promise<void> {
  const row = await tx.get('outbox', sent.no);
  if (row === undefined || receipt === undefined) return;
  if (receipt.result === 'refused') return apply_refusal(tx, row, receipt, told.now);
  await tx.delete('outbox', row.no);
  // Its row came already, by another phone's hand perhaps, and will not come again.
  if (receipt.seq <= told.pulled_to) await unpaint(tx, row.written);
  const entry = await tx.get('entries', row.id);
  if (entry === undefined) return;
  const { seq } = receipt;
  const { generation } = told;
  const clock_skew_ms = entry.clock_skew_ms ?? skew_of(row, receipt, told.skew);
  await tx.put('entries', {
    ...entry,
    standing: 'sent',
    seq,
    generation,
    ...(clock_skew_ms !== undefined && { clock_skew_ms }),
  });
}

/** As the server measured it with this push. Of a duplicate it was measured with an earlier one: the feed tells. */
function skew_of(row: OutboxRow, receipt: Receipt, skew: number | undefined): number | undefined {
  return row.recovered?.clock_skew_ms ?? (receipt.result === 'accepted' ? skew : undefined);
}

async function apply_refusal(tx: Tx, row: OutboxRow, receipt: Refused, now: number): Promise<void> {
  const { code, message, facts } = receipt;
  const refusal = { code, message, facts, refused_at: utc_text(now) };
  if (receipt.permanent) return to_tray(tx, row, refusal);
  if (code !== 'unknown_reference') return;
  const since = row.unknown_since ?? now;
  if (now - since > UNKNOWN_FOR_MS) return to_tray(tx, row, refusal);
  if (row.unknown_since === undefined) await tx.put('outbox', { ...row, unknown_since: since });
}

/** Kept, visible and marked, outside the fold, until a person decides. Its photos wait with it. */
export async function to_tray(tx: Tx, row: OutboxRow, refusal: Refusal): Promise<void> {
  const { id, written, recovered } = row;
  await tx.delete('outbox', row.no);
  await tx.put('tray', { key: tray_key(row), id, written, refusal, ...(recovered && { recovered }) });
  await unpaint(tx, written);
  const entry = await tx.get('entries', id);
  if (entry === undefined) return;
  // Under a reused id the server holds, and this phone may have pulled, another line.
  const standing = same_written(entry.written, written) ? 'refused' : 'sent';
  await tx.put('entries', { ...entry, standing });
  if (standing === 'refused') await name_photos(tx, written, 'held');
}

export const tray_key = ({ written }: Pick<OutboxRow, 'written'>): string =>
  `${written.id}/${written.device}/${String(written.device_no)}`;

async function take_codes(tx: Tx, reply: PushReply): Promise<void> {
  if (reply.codes === undefined) return;
  const codes = await read_meta(tx, 'codes');
  await tx.put('meta', { name: 'codes', value: with_block(codes, reply.codes) });
}

/** This phone's store was copied: from here on it is a device of its own, numbers going on, with codes of its own. */
async function take_new_device(tx: Tx, sent_as: Id, reply: PushReply): Promise<void> {
  if (reply.renew === undefined) return;
  const numbers = await Numbers.of(tx);
  if (numbers.device !== sent_as) return;
  await numbers.become(reply.renew.device);
  const given_to = (await read_meta(tx, 'codes'))?.given_to ?? 0;
  await tx.put('meta', { name: 'codes', value: { blocks: [], given_to } });
}
