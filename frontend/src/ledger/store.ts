/**
 * The rows of the phone's store and the one way to them: a transaction over named stores, all or nothing.
 *
 * Inside a transaction nothing may be awaited but its own requests: the browser ends it while one waits for
 * anything else. `eslint` holds that (rule `ledger/no-foreign-await`), a test proves it.
 */
import type { FieldConflict } from '../wire/push.ts';
import type { Json } from '../wire/json.ts';
import type { Body, Hash, Id, Written } from '../wire/written.ts';
import type { Draft, Refusal, Standing } from './shapes.ts';

export interface EntryRow {
  readonly id: Id;
  readonly written: Written;
  readonly standing: Standing;
  /** Valid only within `generation`: a reset of the server makes older numbers void without touching rows. */
  readonly seq?: number;
  readonly generation?: number;
  readonly received_at?: string;
  readonly clock_skew_ms?: number;
  readonly body_hash?: string;
  readonly without_photo?: true;
}

/** Unchangeable but for the day an unknown reference was first answered; deleted by its own number only. */
export interface OutboxRow {
  /** Order of recording. */
  readonly no: number;
  readonly id: Id;
  readonly written: Written;
  readonly recorded_at: number;
  readonly recovered?: { readonly clock_skew_ms: number };
  readonly unknown_since?: number;
}

/** This phone's own edit, not yet seen in the feed. */
export interface Painted {
  readonly edit: Id;
  readonly set: Body;
}

export interface RecordRow {
  readonly key: string;
  readonly type: string;
  readonly id: Id;
  readonly values: Body;
  readonly rev: number;
  readonly field_revs: Readonly<Record<string, number>>;
  readonly generation: number;
  readonly painted: readonly Painted[];
}

export interface SheetRow {
  readonly key: string;
  readonly kind: string;
  readonly seq: number;
  readonly as_of: number;
  readonly made_at: string;
  readonly inputs: Json;
  readonly content: Json;
  readonly generation: number;
}

/**
 * `drafted` belongs to a draft; `to_send` is named by a line; `held` is named by refused lines only; `sent` is on
 * the server; `asked` was sent before a reset, and the server must be asked whether it is there still.
 */
export type PhotoStanding = 'drafted' | 'to_send' | 'held' | 'asked' | 'sent' | 'refused' | 'broken';

export interface PhotoRow {
  readonly hash: Hash;
  readonly type: string;
  readonly size: number;
  readonly standing: PhotoStanding;
  readonly draft?: string;
  readonly named_by: readonly Id[];
  readonly taken_at: string;
  readonly kept_at: number;
  readonly undecoded?: true;
  /** The full bytes are on the phone. */
  readonly whole: boolean;
}

/** Bytes lie apart, so that counting photos reads none. Key `<hash>/full` or `<hash>/thumbnail`. */
export interface PictureRow {
  readonly key: string;
  readonly bytes: ArrayBuffer;
  readonly type: string;
}

export interface TrayRow {
  /** `<line id>/<device>/<device_no>`: each wording that was refused has a row. */
  readonly key: string;
  readonly id: Id;
  readonly written: Written;
  readonly refusal: Refusal;
  readonly recovered?: { readonly clock_skew_ms: number };
  readonly settled?: 'mended' | 'sent_again' | 'dropped';
}

export interface ConflictRow extends FieldConflict {
  /** `<edit>:<field>` */
  readonly key: string;
  readonly type: string;
  readonly record: Id;
  readonly edit: Id;
  readonly seen: boolean;
}

/** One row of `meta` each. */
export interface MetaRows {
  /** This phone in this household. */
  readonly self: {
    readonly household: Id;
    readonly device: Id;
    readonly next_no: number;
    readonly next_outbox: number;
  };
  /** Blocks of lot numbers, oldest first; `given_to` is the highest ever given. */
  readonly codes: {
    readonly blocks: readonly { readonly next: number; readonly to: number }[];
    readonly given_to: number;
  };
  /** Where pulling stands. `healing`: at first and after a reset, lines the server may lack must be asked for. */
  readonly feed: {
    readonly cursor?: { readonly epoch: number; readonly seq: number };
    readonly generation: number;
    readonly healing: boolean;
    /** The first whole pull of this generation is not done: older records and sheets are still there. */
    readonly sweeping: boolean;
    readonly last_pull?: number;
  };
  readonly people: { readonly listed: readonly Id[]; readonly writer?: Id; readonly minder: boolean };
  readonly halt: {
    readonly why?: 'sign_in' | 'revoked' | 'update' | 'stopped' | 'not_ours';
    readonly detail?: string;
  };
  readonly kept_safe: { readonly asked_at: number; readonly granted: boolean };
  /** See `worked_out.ts`. */
  readonly worked_out: { readonly mark: string; readonly of: string; readonly text: string };
}
export type MetaName = keyof MetaRows;
export interface MetaOf<N extends MetaName> {
  readonly name: N;
  readonly value: MetaRows[N];
}
export type MetaRow = { [N in MetaName]: MetaOf<N> }[MetaName];

export interface Rows {
  entries: { key: Id; row: EntryRow };
  outbox: { key: number; row: OutboxRow };
  records: { key: string; row: RecordRow };
  sheets: { key: string; row: SheetRow };
  drafts: { key: string; row: Draft };
  photos: { key: Hash; row: PhotoRow };
  pictures: { key: string; row: PictureRow };
  tray: { key: string; row: TrayRow };
  conflicts: { key: string; row: ConflictRow };
  meta: { key: string; row: MetaRow };
}
export type StoreName = keyof Rows;
export type Key<S extends StoreName> = Rows[S]['key'];
export type Row<S extends StoreName> = Rows[S]['row'];

/** The field of a row that is its key. */
export const KEY_PATHS = {
  entries: 'id',
  outbox: 'no',
  records: 'key',
  sheets: 'key',
  drafts: 'id',
  photos: 'hash',
  pictures: 'key',
  tray: 'key',
  conflicts: 'key',
  meta: 'name',
} as const satisfies Record<StoreName, string>;

export const STORE_NAMES = [
  'entries',
  'outbox',
  'records',
  'sheets',
  'drafts',
  'photos',
  'pictures',
  'tray',
  'conflicts',
  'meta',
] as const satisfies readonly StoreName[];

/** Layout of the store. Upgrades only add. */
export const STORE_VERSION = 1;

export interface ReadTx {
  get<S extends StoreName>(store: S, key: Key<S>): Promise<Row<S> | undefined>;
  /** In order of key; `after` leaves out that key and those before it. */
  all<S extends StoreName>(store: S, after?: Key<S>, limit?: number): Promise<readonly Row<S>[]>;
  keys<S extends StoreName>(store: S): Promise<readonly Key<S>[]>;
  count(store: StoreName): Promise<number>;
}

export interface Tx extends ReadTx {
  put<S extends StoreName>(store: S, row: Row<S>): Promise<void>;
  delete<S extends StoreName>(store: S, key: Key<S>): Promise<void>;
}

export interface Store {
  read<T>(stores: readonly StoreName[], work: (tx: ReadTx) => Promise<T>): Promise<T>;
  /**
   * Resolves when the transaction is complete and not before; rejects, nothing written, otherwise.
   * `firm` waits for the disk: for what a person was told is kept.
   */
  write<T>(stores: readonly StoreName[], work: (tx: Tx) => Promise<T>, firm?: 'firm'): Promise<T>;
  close(): void;
}

export async function read_meta<N extends MetaName>(tx: ReadTx, name: N): Promise<MetaRows[N] | undefined> {
  const row = await tx.get('meta', name);
  return row !== undefined && is_meta(row, name) ? row.value : undefined;
}

/** Rows of `meta` are told apart by their name. */
const is_meta = <N extends MetaName>(row: MetaRow, name: N): row is MetaRow & MetaOf<N> => row.name === name;
