/**
 * The face screens see. Everything reads and writes the phone's own store; nothing here waits for the network but
 * `sync_now`, `photos.look` of a picture that is not on the phone, and `access`.
 */
import type {
  Body,
  Change,
  Conflict,
  CycleEnd,
  Draft,
  DraftStep,
  Hash,
  Id,
  Json,
  Line,
  NewEdit,
  NewEntry,
  Outcome,
  PhotoBytes,
  PhotoState,
  ReadyPhoto,
  RecordNow,
  Sheet,
  Status,
  TrayLine,
} from './shapes.ts';
import type { Mark } from './worked_out.ts';

export interface Ledger {
  readonly household: Id;

  /** A new id (UUIDv7), for a round that begins or a record to be made. */
  mint_id(): Id;
  /** Keep an entry: confirmed when this resolves with `ok`, from the store's `complete`. */
  record(entry: NewEntry, draft?: DraftStep): Promise<Outcome<Line>>;
  /** Several entries in one transaction, all or none. */
  record_all(entries: readonly NewEntry[], draft?: DraftStep): Promise<Outcome<readonly Line[]>>;
  /** Change fields of a record, or make it. */
  edit(edit: NewEdit): Promise<Outcome<Line>>;
  /** Strike a line out (undo); striking a strike brings the first back. */
  strike(id: Id, why?: string, person?: Id): Promise<Outcome<Line>>;

  /** Every line held, in no order; edits too. */
  lines(): Promise<readonly Line[]>;
  /** Where the lines stand, to keep under it what is worked out of them. */
  mark(): Promise<Mark>;
  /** What was kept of the lines as they stand now, by the same rules and settings (`of`); else undefined. */
  worked_out(of: string): Promise<string | undefined>;
  /** Keep it for the next start, unless a line changed since the mark. Says whether it is kept. */
  keep_worked_out(mark: Mark, of: string, text: string): Promise<boolean>;
  line(id: Id): Promise<Line | undefined>;
  lines_by_id(ids: readonly Id[]): Promise<readonly Line[]>;
  records(type?: string): Promise<readonly RecordNow[]>;
  one_record(type: string, id: Id): Promise<RecordNow | undefined>;
  sheets(kind?: string): Promise<readonly Sheet[]>;
  sheet(key: string): Promise<Sheet | undefined>;
  status(): Promise<Status>;
  /** Called after every change, in this tab or another one. Returns what ends it. */
  subscribe(heard: (change: Change) => void): () => void;

  readonly drafts: Drafts;
  readonly photos: Photos;
  readonly tray: Tray;
  readonly conflicts: Conflicts;

  /** Who is writing on this phone, among the people its device lists. */
  people(): Promise<readonly Id[]>;
  writer(): Promise<Id | undefined>;
  set_writer(person: Id): Promise<void>;
  /** The number the next lot will get, to show beforehand; undefined when the block is used up. */
  next_code(): Promise<number | undefined>;
  /** How many numbers this phone can still give with no signal. */
  codes_left(): Promise<number>;
  /** Numbers for blank labels: used up, so that no lot gets them by itself. Fewer where fewer are left. */
  set_codes_aside(count: number): Promise<Outcome<readonly number[]>>;
  /** A number somebody gave by hand, read off a label: no lot gets it by itself any more. */
  leave_code_out(number: number): Promise<Outcome<void>>;

  /** One cycle now (a tap on the status line). */
  sync_now(): Promise<CycleEnd>;
  /** Begin to sync by itself: shown, online, after a save, every minute while visible. Returns what stops it. */
  start(): () => void;
  /** Ask the browser to keep the store; the answer stands in `status().not_kept_safe`. */
  keep_safe(): Promise<boolean>;
  /** Everything not yet on the server (waiting, refused, drafts, photos) as one JSON text. */
  export_unsent(): Promise<string>;
  /** Put lines of such a text back; what is known already is left alone. Returns how many came new. */
  import_unsent(text: string): Promise<Outcome<number>>;
  /** Leave this household on this phone: sign out and delete its store. Refused while work is unsent, unless told. */
  sign_out(
    even_unsent: boolean,
  ): Promise<{ readonly left: true } | { readonly left: false; readonly unsent: number }>;
  close(): void;
}

export interface Drafts {
  put(draft: { readonly id: string; readonly kind: string; readonly value: Json }): Promise<Outcome<Draft>>;
  get(id: string): Promise<Draft | undefined>;
  of_kind(kind: string): Promise<readonly Draft[]>;
  /** The draft goes, and those of its photos which no entry names. */
  drop(id: string): Promise<void>;
}

export interface Photos {
  /** Keep a picture with a draft, at capture. */
  keep(photo: ReadyPhoto, draft: string): Promise<Outcome<Hash>>;
  /** Take a picture back out of its draft; one that an entry names stays. */
  forget(hash: Hash): Promise<void>;
  state(hash: Hash): Promise<PhotoState>;
  of_draft(draft: string): Promise<readonly Hash[]>;
  /** The picture, from the phone, else fetched (and a thumbnail kept). Undefined: not to be had now. */
  look(hash: Hash, size: 'full' | 'thumbnail'): Promise<PhotoBytes | undefined>;
}

export interface Tray {
  lines(): Promise<readonly TrayLine[]>;
  /** Same id, new number, back to the outbox with what hangs on it; the refused wording stays readable. */
  mend(id: string, body: Body): Promise<Outcome<Line>>;
  /** Send the same wording once more (what it needed has come, the role was changed). */
  send_again(id: string): Promise<Outcome<Line>>;
  /** By a person's word only: the line is put aside for good, still readable in the tray. */
  drop(id: string): Promise<Outcome<void>>;
}

export interface Conflicts {
  /** Those not yet shown on this phone. */
  unseen(): Promise<readonly Conflict[]>;
  /** Shown: it will not come again. */
  seen(id: string): Promise<void>;
}
