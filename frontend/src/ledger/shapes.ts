/**
 * What the phone keeps, and the words for it. Names are snake_case, as on the wire: lines, records and sheets are
 * compared by value with what the server holds.
 *
 * A *line* is an entry or an edit. What the phone wrote is one JSON object, the `Written` line, which nothing ever
 * alters; what others add to it (its number, the time it was received) lies beside it in a `Line`.
 */

import type { Json } from '../wire/json.ts';
import type { Body, Hash, Id, Written } from '../wire/written.ts';

export type { Json } from '../wire/json.ts';
export type { Body, Hash, Id, Written } from '../wire/written.ts';

/**
 * Where a line stands: `waiting` in the outbox, `sent` (the server has it), `refused` (in the tray: kept, visible,
 * outside the fold). A `waiting` line counts in the fold like a sent one.
 */
export type Standing = 'waiting' | 'sent' | 'refused';

/** A line with what is known about it. `clock_skew_ms` is server less phone, at the push that first brought it. */
export interface Line {
  readonly written: Written;
  readonly standing: Standing;
  /** The server's number, within the present epoch; absent while waiting. */
  readonly seq?: number;
  readonly received_at?: string;
  readonly clock_skew_ms?: number;
  /** The photo could not be kept (storage full): the line stands without it, and says so. */
  readonly without_photo?: true;
}

/** Two edits of one field: `standing` won, `other` is offered once with "use this instead". */
export interface Conflict {
  readonly id: string;
  readonly type: string;
  readonly record: Id;
  readonly field: string;
  readonly standing: Json;
  readonly other: Json;
  readonly standing_person?: Id;
  /** The edit that lost, and who wrote it, where the server told it. */
  readonly other_edit?: Id;
  readonly other_person?: Id;
  readonly other_at?: string;
}

/** A record as it is to be shown: the server's values with this phone's unsettled edits painted over them. */
export interface RecordNow {
  readonly type: string;
  readonly id: Id;
  readonly values: Body;
  /** Of the server's values; 0 for a record so far made on this phone only. */
  readonly rev: number;
  readonly field_revs: Readonly<Record<string, number>>;
  /** Fields whose edit has not come back yet. */
  readonly pending: readonly string[];
}

/** What a job worked out: outlook, roster, tally ... `as_of` is the ledger number it was worked out at. */
export interface Sheet {
  readonly key: string;
  readonly kind: string;
  readonly as_of: number;
  readonly made_at: string;
  readonly inputs: Json;
  readonly content: Json;
  /** Lines are held that the sheet did not know. */
  readonly behind: boolean;
}

/** Anything unfinished that must survive a reload: a running round, a half-filled form. */
export interface Draft {
  readonly id: string;
  /** For example `round` or `put_away`. */
  readonly kind: string;
  readonly value: Json;
  readonly changed_at: string;
}

/** `undecoded`: this phone could not read the picture (HEIC); the bytes are kept and the server may. */
export type PhotoState = 'drafted' | 'to_send' | 'sent' | 'refused' | 'undecoded' | 'elsewhere' | 'missing';

export interface PhotoBytes {
  readonly hash: Hash;
  readonly type: string;
  readonly bytes: ArrayBuffer;
}

/** A picture made ready by `capture`: sized, without metadata, named by its hash. */
export interface ReadyPhoto extends PhotoBytes {
  readonly thumbnail?: ArrayBuffer;
  readonly width?: number;
  readonly height?: number;
  readonly taken_at: string;
  readonly undecoded?: true;
}

/** Why the server took nothing of a line: a code, facts for a sentence, and the server's own sentence. */
export interface Refusal {
  readonly code: string;
  readonly message: string;
  readonly facts: Body;
  readonly refused_at: string;
}

/**
 * A refused line in the tray. Not settled, it needs a person. `mended`: the mended line went back to the outbox and
 * the refused wording stays readable here; `sent_again`: the same wording went back; `dropped`: by a person's word.
 */
export interface TrayLine {
  readonly id: string;
  readonly written: Written;
  readonly refusal: Refusal;
  readonly settled?: 'mended' | 'sent_again' | 'dropped';
  /** Refused lines that hang on this one and go back with it. */
  readonly children: readonly Id[];
  /**
   * It may go back under its id. Where another line has that id, mending writes it anew under one of its own; what was
   * erased cannot be mended.
   */
  readonly mendable: boolean;
}

/**
 * What stops the exchange until somebody does something, kept on the phone.
 * `sign_in` 401, `revoked` 403, `update` 426, `stopped` an answer this build does not know, `not_ours` a page that
 * is no answer of our server (captive portal), `store_newer` and so on are told by `Trouble` instead.
 */
export type Halt = 'sign_in' | 'revoked' | 'update' | 'stopped' | 'not_ours';

/** The status line, from the stores alone: never whether a socket is open. */
export interface Status {
  readonly to_send: number;
  readonly photos_to_send: number;
  readonly needs_you: number;
  /** When the oldest waiting line was written. */
  readonly oldest?: string;
  /** The last good pull. */
  readonly last_pull?: string;
  readonly halt?: Halt;
  readonly halt_detail?: string;
  /** `persist()` was refused: the browser may throw the store away. */
  readonly not_kept_safe?: true;
  /** A new build waits for a tap. */
  readonly new_version?: true;
}

/** What went wrong with the phone's own store. The form stays filled; nothing was written. */
export type Trouble =
  | 'store_full'
  | 'store_closed' // lost in the background and not to be had again: start the app anew
  | 'store_newer' // written by a newer build: nothing was touched
  | 'store_blocked' // another window holds an older version: close it
  | 'not_signed_in'
  | 'not_found'
  | 'not_mendable';

export type Outcome<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: Trouble };

/** An entry as a screen gives it; the ledger adds id, household, device, number and time. */
export interface NewEntry {
  /** Minted beforehand where something already names it (a round's id is made when it begins). */
  readonly id?: Id;
  readonly kind: string;
  readonly schema?: number;
  readonly body: Body;
  /** The writer, unless the one chosen by `set_writer` wrote it. */
  readonly person?: Id;
  readonly with?: readonly Id[];
  /** A day the person names, `2026-11-20`: dated by the person, at noon. */
  readonly day?: string;
  readonly strikes?: Id;
  readonly photos?: readonly Hash[];
  /** A picture was taken and could not be kept (storage full): the line says so. */
  readonly without_photo?: true;
  /**
   * Take the next number of this phone's block, if there is one, and write what this makes of it as `body.code`.
   * Given and used up in the same transaction.
   */
  readonly code?: (number: number) => string;
}

export interface NewEdit {
  readonly type: string;
  /** The record's id; a new record has one minted by `mint_id`. */
  readonly record: Id;
  readonly set: Body;
  readonly person?: Id;
  /** Pictures it names in a field. */
  readonly photos?: readonly Hash[];
}

/** What happens to the draft in the same transaction as the entry. */
export interface DraftStep {
  readonly put?: { readonly id: string; readonly kind: string; readonly value: Json };
  readonly drop?: string;
}

/** What changed, here or in another window. `lines`: written, changed or gone; those and no others. */
export interface Change {
  readonly lines: readonly Id[];
  readonly records: boolean;
  readonly sheets: boolean;
  readonly drafts: boolean;
  readonly photos: boolean;
  readonly tray: boolean;
  readonly status: boolean;
}

/** How one cycle of the exchange ended. */
export type CycleEnd = 'done' | 'busy' | 'hidden' | 'failed' | 'halted';
