/** The ledger of one household on this phone, put together from its parts. Platform-free: the world is passed in. */
import type { Announcer } from './announce.ts';
import { export_unsent, import_unsent } from './carry.ts';
import { read_conflicts, see_conflict } from './conflicts.ts';
import { run_cycle, type Ended } from './cycle.ts';
import type { Deps } from './deps.ts';
import { drop_draft, put_draft } from './drafts.ts';
import type { Conflicts, Drafts, Ledger, Photos, Tray } from './face.ts';
import { as_line, generation_of, read_lines, read_sheets, read_status, STATUS_STORES } from './lines.ts';
import { codes_left, drop_code, take_codes } from './numbers.ts';
import { one_of } from './one.ts';
import {
  forget_photo,
  keep_photo,
  look_at,
  photo_state,
  photos_of_draft,
  thin,
  with_room,
} from './photos.ts';
import type { Transport } from './ports.ts';
import { edit, record_all, strike } from './record.ts';
import { as_record, read_records, record_key } from './records.ts';
import type { Change, CycleEnd, DraftStep, Id, Line, NewEdit, NewEntry, Outcome, Status } from './shapes.ts';
import { read_meta, type MetaRows } from './store.ts';
import { drop, mend, read_tray, send_again } from './tray.ts';
import { outcome } from './trouble.ts';
import { keep_worked_out, mark_of, read_worked_out, type Mark } from './worked_out.ts';

/** What the window around the ledger does for it. */
export interface Window {
  readonly announcer: Announcer;
  /** When to exchange; a save asks for it soon. */
  readonly exchange: { nudge(): Promise<CycleEnd>; saved(): void };
  start(): () => void;
  ask_to_persist(): Promise<boolean | undefined>;
  /** The server forgets this phone, if it hears it. */
  sign_off(): Promise<void>;
  /** The store and all in it go. */
  delete_store(): Promise<void>;
  new_version(): boolean;
  close(): void;
}

export class KeptLedger implements Ledger {
  readonly household: Id;
  readonly #deps: Deps;
  readonly #transport: Transport;
  readonly #window: Window;

  constructor(deps: Deps, transport: Transport, window: Window) {
    this.household = deps.household;
    this.#deps = deps;
    this.#transport = transport;
    this.#window = window;
  }

  mint_id(): Id {
    return this.#deps.mint_id();
  }

  async record(entry: NewEntry, draft?: DraftStep): Promise<Outcome<Line>> {
    const kept = await this.record_all([entry], draft);
    return kept.ok ? { ok: true, value: one_of(kept.value) } : kept;
  }

  record_all(entries: readonly NewEntry[], draft?: DraftStep): Promise<Outcome<readonly Line[]>> {
    return this.#kept(
      () => record_all(this.#deps)(entries, draft),
      (lines) => ({
        lines: lines.map((line) => line.written.id),
        drafts: draft !== undefined,
        photos: true,
      }),
    );
  }

  edit(change: NewEdit): Promise<Outcome<Line>> {
    return this.#kept(() => edit(this.#deps)(change), as_change);
  }

  strike(id: Id, why?: string, person?: Id): Promise<Outcome<Line>> {
    return this.#kept(() => strike(this.#deps)(id, why, person), as_change);
  }

  lines(): Promise<readonly Line[]> {
    return this.#deps.store.read(['entries', 'meta'], read_lines);
  }

  mark() {
    return mark_of(this.#deps.store);
  }

  worked_out(of: string) {
    return read_worked_out(this.#deps.store, of);
  }

  keep_worked_out(mark: Mark, of: string, text: string) {
    return keep_worked_out(this.#deps.store, mark, of, text);
  }

  async line(id: Id): Promise<Line | undefined> {
    const [line] = await this.lines_by_id([id]);
    return line;
  }

  lines_by_id(ids: readonly Id[]): Promise<readonly Line[]> {
    return this.#deps.store.read(['entries', 'meta'], async (tx) => {
      const generation = await generation_of(tx);
      const rows = await Promise.all(ids.map((id) => tx.get('entries', id)));
      return rows.filter((row) => row !== undefined).map((row) => as_line(row, generation));
    });
  }

  records(type?: string) {
    return this.#deps.store.read(['records'], (tx) => read_records(tx, type));
  }

  async one_record(type: string, id: Id) {
    const row = await this.#deps.store.read(['records'], (tx) => tx.get('records', record_key(type, id)));
    return row && as_record(row);
  }

  async sheets(kind?: string) {
    const sheets = await this.#deps.store.read(['sheets', 'outbox', 'meta'], read_sheets);
    return sheets.filter((sheet) => kind === undefined || sheet.kind === kind);
  }

  async sheet(key: string) {
    return (await this.sheets()).find((sheet) => sheet.key === key);
  }

  async status(): Promise<Status> {
    const status = await this.#deps.store.read(STATUS_STORES, read_status);
    return this.#window.new_version() ? { ...status, new_version: true } : status;
  }

  subscribe(heard: (change: Change) => void): () => void {
    return this.#window.announcer.subscribe(heard);
  }

  readonly drafts: Drafts = {
    put: (draft) =>
      this.#kept(
        () => put_draft(this.#deps)(draft),
        () => ({ drafts: true }),
        'local',
      ),
    get: (id) => this.#deps.store.read(['drafts'], (tx) => tx.get('drafts', id)),
    of_kind: async (kind) => {
      const drafts = await this.#deps.store.read(['drafts'], (tx) => tx.all('drafts'));
      return drafts.filter((draft) => draft.kind === kind);
    },
    drop: async (id) => {
      await drop_draft(this.#deps)(id);
      this.#window.announcer.changed({ drafts: true, photos: true });
    },
  };

  readonly photos: Photos = {
    keep: (photo, draft) =>
      this.#kept(
        () => keep_photo(this.#deps)(photo, draft),
        () => ({ photos: true }),
        'local',
      ),
    forget: async (hash) => {
      await forget_photo(this.#deps)(hash);
      this.#window.announcer.changed({ photos: true });
    },
    state: (hash) => photo_state(this.#deps)(hash),
    of_draft: (draft) => photos_of_draft(this.#deps)(draft),
    look: (hash, size) => look_at(this.#deps, this.#transport)(hash, size),
  };

  readonly tray: Tray = {
    lines: () => this.#deps.store.read(['tray'], read_tray),
    mend: (id, body) => this.#went_back(() => mend(this.#deps)(id, body)),
    send_again: (id) => this.#went_back(() => send_again(this.#deps)(id)),
    drop: (id) =>
      this.#kept(
        () => drop(this.#deps)(id),
        () => ({ lines: [line_of(id)], tray: true, photos: true }),
        'local',
      ),
  };

  readonly conflicts: Conflicts = {
    unseen: () => this.#deps.store.read(['conflicts'], read_conflicts),
    seen: async (id) => {
      await see_conflict(this.#deps.store, id);
      this.#window.announcer.changed({ records: true });
    },
  };

  async people(): Promise<readonly Id[]> {
    return (await this.#meta('people'))?.listed ?? [];
  }

  async writer(): Promise<Id | undefined> {
    const people = await this.#meta('people');
    return people?.writer ?? people?.listed[0];
  }

  async set_writer(person: Id): Promise<void> {
    await this.#deps.store.write(['meta'], async (tx) => {
      const people = await read_meta(tx, 'people');
      if (people) await tx.put('meta', { name: 'people', value: { ...people, writer: person } });
    });
  }

  async next_code(): Promise<number | undefined> {
    return (await this.#meta('codes'))?.blocks[0]?.next;
  }

  async codes_left(): Promise<number> {
    return codes_left(await this.#meta('codes'));
  }

  set_codes_aside(count: number): Promise<Outcome<readonly number[]>> {
    return this.#kept(
      () => this.#deps.store.write(['meta'], (tx) => take_codes(tx, count), 'firm'),
      () => ({}),
    );
  }

  leave_code_out(number: number): Promise<Outcome<void>> {
    return this.#kept(
      () => this.#deps.store.write(['meta'], (tx) => drop_code(tx, number), 'firm'),
      () => ({}),
      'local',
    );
  }

  sync_now(): Promise<CycleEnd> {
    return this.#window.exchange.nudge();
  }

  start(): () => void {
    return this.#window.start();
  }

  async keep_safe(): Promise<boolean> {
    const granted = await this.#window.ask_to_persist();
    if (granted === undefined) return false;
    const value = { asked_at: this.#deps.clock.now(), granted };
    await this.#deps.store.write(['meta'], (tx) => tx.put('meta', { name: 'kept_safe', value }));
    this.#window.announcer.changed({});
    return granted;
  }

  export_unsent(): Promise<string> {
    return export_unsent(this.#deps);
  }

  async import_unsent(text: string): Promise<Outcome<number>> {
    const kept = await this.#kept(
      () => import_unsent(this.#deps)(text),
      (lines) => ({ lines, records: true, drafts: true, photos: true }),
    );
    return kept.ok ? { ok: true, value: kept.value.length } : kept;
  }

  async sign_out(even_unsent: boolean) {
    const { to_send, photos_to_send, needs_you } = await this.status();
    const unsent = to_send + photos_to_send + needs_you;
    if (unsent > 0 && !even_unsent) return { left: false, unsent } as const;
    await this.#window.sign_off();
    this.close();
    await this.#window.delete_store();
    return { left: true } as const;
  }

  close(): void {
    this.#window.close();
    this.#deps.store.close();
  }

  #meta<N extends keyof MetaRows>(name: N): Promise<MetaRows[N] | undefined> {
    return this.#deps.store.read(['meta'], (tx) => read_meta(tx, name));
  }

  /** What hangs on a line goes back with it: their standing changes too. */
  async #went_back(act: () => Promise<readonly Line[]>): Promise<Outcome<Line>> {
    const kept = await this.#kept(act, (lines) => ({
      lines: lines.map((line) => line.written.id),
      records: true,
      tray: true,
      photos: true,
    }));
    return kept.ok ? { ok: true, value: one_of(kept.value) } : kept;
  }

  /** Written, then told; with the store full, once more after making room. */
  async #kept<T>(
    write: () => Promise<T>,
    change: (kept: T) => Partial<Change>,
    local?: 'local',
  ): Promise<Outcome<T>> {
    const kept = await outcome(() => with_room(this.#deps.store, write));
    if (!kept.ok) return kept;
    this.#window.announcer.changed(change(kept.value));
    if (local === undefined) this.#window.exchange.saved();
    return kept;
  }
}

const as_change = (line: Line): Partial<Change> => ({
  lines: [line.written.id],
  records: line.written.kind === 'edit',
});

const line_of = (tray_key: string): Id => tray_key.slice(0, tray_key.indexOf('/'));

/** One cycle of the exchange with this store, and room made afterwards where pictures take too much. */
export async function cycle_and_thin(
  deps: Deps,
  parts: Omit<Parameters<typeof run_cycle>[0], 'store' | 'clock'>,
  estimate: () => Promise<{ usage?: number; quota?: number }>,
): Promise<Ended> {
  const ended = await run_cycle({ store: deps.store, clock: deps.clock, ...parts });
  if (ended.kind === 'done') await thin(deps.store, await estimate());
  return ended;
}
