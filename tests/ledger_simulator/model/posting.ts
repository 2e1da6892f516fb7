/** One push on the model server: judged line by line, written, a receipt for each. */
import type { JsonObject } from '../../../frontend/src/wire/json.ts';
import { read_edit, type Id, type Written } from '../../../frontend/src/wire/written.ts';
import { body_hash } from './canonical.ts';
import { Gate, Refused, thing_of } from './gate.ts';
import { begun_by } from './kinds.ts';
import { merge, NO_RECORD, type Edit, type Merged } from './merge.ts';
import type { PushedLine } from './server.ts';
import type { KeptLine, State } from './state.ts';

/** A skew under two minutes is the network's, not the clock's. */
const SKEW_FROM_MS = 120_000;

export class Posting {
  readonly state: State;
  /** The server's own lines are not asked who wrote them. */
  server_writes = false;
  protected readonly gate: Gate;
  protected readonly now: number;
  readonly #skew: number;
  readonly #taken: KeptLine[] = [];
  readonly #seen: Written[] = [];

  constructor(state: State, people: readonly Id[], now: number, skew: number) {
    this.state = state;
    this.now = now;
    this.#skew = skew;
    this.gate = new Gate(state, people);
  }

  post(lines: readonly PushedLine[]): readonly JsonObject[] {
    return lines.map((line) => this.#post_one(line));
  }

  #post_one(pushed: PushedLine): JsonObject {
    const { written } = pushed;
    try {
      const receipt = this.known(written) ?? this.#admit(pushed);
      this.#seen.push(written);
      return receipt;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.gate.refused.set(written.id, error.permanent);
      const edit = read_edit(written);
      if (edit && !this.gate.refused.has(edit.record)) this.gate.refused.set(edit.record, error.permanent);
      return this.refusal(written, error);
    }
  }

  protected refusal({ id }: Written, { code, permanent, facts }: Refused): JsonObject {
    return { id, result: 'refused', code, message: code, permanent, facts };
  }

  /** A line that is here already, or never may be, is judged no further. */
  protected known(written: Written): JsonObject | undefined {
    if (this.state.erased.has(written.id)) throw new Refused('erased', true);
    const line = this.state.lines.get(written.id);
    if (line === undefined) return undefined;
    if (line.hash !== body_hash(written)) throw new Refused('id_reused', true);
    return { id: written.id, result: 'duplicate', seq: line.seq };
  }

  #admit({ written, recovered }: PushedLine): JsonObject {
    const skew = recovered?.clock_skew_ms ?? this.#skew;
    Gate.check_shape(written);
    if (!this.server_writes) this.gate.check(written, recovered !== undefined);
    const merged = this.#described(written, skew);
    const { line, told } = this.number(written, skew, merged);
    this.#taken.push(line);
    return { id: written.id, result: 'accepted', seq: line.seq, ...told };
  }

  /** The record the line begins or changes. */
  #described(written: Written, skew: number): { readonly key: string; readonly merged: Merged } | undefined {
    const edit = this.#edit_of(written, skew);
    if (edit === undefined) return undefined;
    const { key, change } = edit;
    return { key, merged: merge(this.state.records.get(key) ?? NO_RECORD, change) };
  }

  #edit_of(written: Written, skew: number): { readonly key: string; readonly change: Edit } | undefined {
    const { id, device, device_no: no, person, body } = written;
    const happened = Date.parse(written.happened_at);
    const when_ms = written.dated === 'clock' && Math.abs(skew) > SKEW_FROM_MS ? happened + skew : happened;
    const by = { when_ms, device, no, person, line: id, at: new Date(when_ms).toISOString() };
    const edit = read_edit(written);
    if (edit)
      return {
        key: `${edit.type}/${edit.record}`,
        change: { ...by, base_rev: edit.base_rev, set: edit.set },
      };
    if (begun_by(written) !== 'lot') return undefined;
    const { code, variety } = body;
    const set = { code: code ?? this.#given_code(), ...(variety !== undefined && { variety }) };
    return { key: `lot/${id}`, change: { ...by, base_rev: 0, set } };
  }

  /** The phone had no number left. */
  #given_code(): string {
    const code = String(this.state.next_code);
    this.state.next_code += 1;
    return code;
  }

  /** The next number of the household, given and written in one go. */
  protected number(
    written: Written,
    clock_skew_ms: number,
    described: { readonly key: string; readonly merged: Merged } | undefined,
  ): { readonly line: KeptLine; readonly told: JsonObject } {
    const { state } = this;
    const seq = state.next_seq;
    state.next_seq += 1;
    const outcome = described && outcome_of(described.key, described.merged);
    const received_at = new Date(this.now).toISOString();
    const line: KeptLine = {
      seq,
      written,
      hash: body_hash(written),
      received_at,
      clock_skew_ms,
      ...(outcome && { outcome }),
    };
    state.lines.set(written.id, line);
    if (described) state.records.set(described.key, described.merged);
    const thing = thing_of(written);
    if (thing !== undefined) state.things.add(thing);
    if (described && written.kind === 'edit') state.things.add(described.key);
    this.#note_number(written);
    state.feed.set(seq, row_of(line));
    return {
      line,
      told:
        written.kind === 'edit' && described
          ? { rev: described.merged.rev, conflicts: described.merged.conflicts }
          : {},
    };
  }

  #note_number({ id, device, device_no }: Written): void {
    const key = `${device}/${String(device_no)}`;
    const ids = this.state.numbers.get(key) ?? [];
    if (!ids.includes(id)) this.state.numbers.set(key, [...ids, id]);
  }

  /** Did a line of this phone bear a number that another line of it has? */
  copied_store(device: Id): boolean {
    return this.#seen.some((written) => {
      const ids = this.state.numbers.get(`${device}/${String(written.device_no)}`) ?? [];
      return written.device === device && ids.some((id) => id !== written.id);
    });
  }

  codes_told_by(device: Id): readonly number[] {
    return this.#taken.flatMap(({ written }) => {
      const code =
        begun_by(written) === 'lot' && written.device === device ? written.body['code'] : undefined;
      return typeof code === 'string' ? [Number(code)] : [];
    });
  }
}

export function row_of(line: KeptLine): JsonObject {
  const { seq, written, hash, received_at, clock_skew_ms, outcome } = line;
  return {
    seq,
    type: written.kind === 'edit' ? 'edit' : 'entry',
    written: written as unknown as JsonObject,
    body_hash: hash,
    received_at,
    clock_skew_ms,
    ...(outcome && { outcome }),
  };
}

function outcome_of(key: string, merged: Merged): JsonObject {
  const [type = '', record = ''] = key.split('/');
  const field_revs = Object.fromEntries(
    Object.entries(merged.fields).map(([field, stand]) => [field, stand.rev]),
  );
  const conflicts = merged.conflicts.length > 0 ? { conflicts: merged.conflicts } : {};
  return { type, record, values: merged.values, rev: merged.rev, field_revs, ...conflicts };
}
