/**
 * Deliberate breaks: each makes client or server wrong in one way, from outside, so that the simulator can be seen
 * to find it. A harness that cannot fail proves nothing.
 */
import { is_list, is_object, parse_json, type Json, type JsonObject } from '../../frontend/src/wire/json.ts';
import type { Written } from '../../frontend/src/wire/written.ts';
import type { Line as FoldLine } from '../../frontend/src/storekeeping/state.ts';
import { Disk, MemoryDisk, MemoryStore, type MemoryTx } from './memory_store.ts';
import { Gate, Refused } from './model/gate.ts';
import { Posting } from './model/posting.ts';
import { ModelServer, type Answered, type Arrived, type PushedLine } from './model/server.ts';
import type { Wrapping } from './phone.ts';
import type { Options } from './simulation.ts';

/** Numbers are given at once, rows are seen later: as with an identity column and transactions that overtake each other. */
class NumbersOutsideTheLock extends ModelServer {
  #held_back: (readonly [number, JsonObject])[] = [];
  #pushes = 0;
  #requests = 0;

  override answer(arrived: Arrived, now: number): Answered {
    this.#requests += 1;
    if (this.#requests % 4 === 0) this.#commit();
    const head = this.state.head;
    const answered = super.answer(arrived, now);
    if (this.state.head > head && (this.#pushes += 1) % 2 === 0) this.#hold_back(head);
    return answered;
  }

  #hold_back(after: number): void {
    for (const [seq, row] of this.state.feed) {
      if (seq > after) this.#held_back.push([seq, row]);
    }
    for (const [seq] of this.#held_back) this.state.feed.delete(seq);
  }

  #commit(): void {
    for (const [seq, row] of this.#held_back) this.state.feed.set(seq, row);
    this.#held_back = [];
  }
}

class WritesDuplicates extends ModelServer {
  override posting(...given: Parameters<ModelServer['posting']>): Posting {
    return new (class extends Posting {
      protected override known(written: Written): JsonObject | undefined {
        return this.state.erased.has(written.id) ? super.known(written) : undefined;
      }
    })(this.state, ...given);
  }
}

class FailsWholeBatches extends ModelServer {
  override posting(...given: Parameters<ModelServer['posting']>): Posting {
    return new (class extends Posting {
      override post(lines: readonly PushedLine[]): readonly JsonObject[] {
        const bad = lines.map(({ written }) => fault_in(written)).find((fault) => fault !== undefined);
        return bad === undefined ? super.post(lines) : lines.map(({ written }) => this.refusal(written, bad));
      }
    })(this.state, ...given);
  }
}

function fault_in(written: Written): Refused | undefined {
  try {
    Gate.check_shape(written);
    return undefined;
  } catch (fault) {
    return fault instanceof Refused ? fault : undefined;
  }
}

/** The cursor is written first, the rows it stands for after that. */
class CursorFirst extends MemoryStore {
  readonly #turn: () => Promise<void>;

  constructor(disk: Disk, turn: () => Promise<void>) {
    super(disk);
    this.#turn = turn;
  }

  protected override async complete(tx: MemoryTx): Promise<void> {
    if (!tx.changes('meta', 'entries') || tx.changes('outbox')) return super.complete(tx);
    tx.commit('meta', 'records', 'sheets', 'conflicts');
    // The rows follow with the scheduler's next pick of this phone, or never, if it is restarted before.
    void this.#turn().then(() => tx.commit('entries'));
  }
}

/** Whatever comes with 200 to a push is taken as a receipt for each line. */
const trusts_200: Wrapping = {
  transport: (transport) => ({
    async send(request, signal) {
      const reply = await transport.send(request, signal);
      if (reply?.status !== 200 || request.path !== '/api/v1/sync/push') return reply;
      const body = typeof request.body === 'string' ? parse_json(request.body) : undefined;
      const lines = is_object(body) && is_list(body['lines']) ? body['lines'] : [];
      const receipts = lines.map((line) => ({ id: id_of(line), result: 'accepted', seq: 1 }));
      return { ...reply, content_type: 'application/json', text: JSON.stringify({ receipts, now: '' }) };
    },
  }),
};

const id_of = (line: Json): Json =>
  is_object(line) && is_object(line['written']) ? (line['written']['id'] ?? '') : '';

/** Rows this phone wrote itself are not looked at again. */
const ignores_own_rows: Wrapping = {
  transport: (transport, phone) => ({
    async send(request, signal) {
      const reply = await transport.send(request, signal);
      const page = reply && request.path.startsWith('/api/v1/sync/pull') ? parse_json(reply.text) : undefined;
      if (reply === undefined || !is_object(page) || !is_list(page['rows'])) return reply;
      const rows = page['rows'].filter((row) => device_of(row) !== phone.token);
      return { ...reply, text: JSON.stringify({ ...page, rows }) };
    },
  }),
};

const device_of = (row: Json): Json | undefined =>
  is_object(row) && is_object(row['written']) ? row['written']['device'] : undefined;

/** A strike works only on what was there when it arrived. */
function strikes_as_they_arrive(lines: readonly FoldLine[], arrived: readonly string[]): readonly FoldLine[] {
  const place = new Map(arrived.map((id, at) => [id, at]));
  return lines.filter(({ written }) => {
    if (written.strikes === undefined) return true;
    return (place.get(written.strikes) ?? Infinity) < (place.get(written.id) ?? Infinity);
  });
}

export const BREAKS: Readonly<Record<string, Options>> = {
  'number given outside the lock': { server: () => new NumbersOutsideTheLock() },
  'cursor saved before rows': {
    disk: async () => new MemoryDisk(new Disk(), (disk, turn) => new CursorFirst(disk, turn)),
  },
  'outbox row deleted on HTTP 200 alone': { wrapping: trusts_200 },
  "rows of one's own ignored": { wrapping: ignores_own_rows },
  'a duplicate written twice': { server: () => new WritesDuplicates() },
  'a strike that depends on arrival': { fold_input: strikes_as_they_arrive },
  'one bad line failing its batch': { server: () => new FailsWholeBatches() },
};
