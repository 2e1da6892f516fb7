/** What `GET /api/v1/sync/pull` and `POST /api/v1/sync/missing` answer. */
import {
  is_count,
  is_object,
  is_text,
  is_text_list,
  is_whole,
  parse_json,
  read_all,
  type Json,
  type JsonObject,
} from './json.ts';
import { read_conflicts, type FieldConflict } from './push.ts';
import { read_written, type Id, type Written } from './written.ts';

/** `<epoch>.<seq>` on the wire. */
export interface Cursor {
  readonly epoch: number;
  readonly seq: number;
}

/** What an edit came to: the values now standing, which is what phones apply. */
export interface EditOutcome {
  readonly type: string;
  readonly record: Id;
  readonly values: JsonObject;
  readonly rev: number;
  readonly field_revs: Readonly<Record<string, number>>;
  readonly conflicts: readonly FieldConflict[];
}

export interface LineRow {
  readonly type: 'entry' | 'edit';
  readonly seq: number;
  readonly written: Written;
  readonly body_hash: string;
  readonly received_at: string;
  readonly clock_skew_ms: number;
  /** Always there in an edit's row; in an entry's where it made a record. */
  readonly outcome?: EditOutcome;
}

export interface SheetRow {
  readonly type: 'sheet';
  readonly seq: number;
  readonly sheet: {
    readonly key: string;
    readonly kind: string;
    readonly as_of: number;
    readonly made_at: string;
    readonly inputs: Json;
    readonly content: Json;
  };
}

export type Row = LineRow | SheetRow;

export interface Page {
  readonly rows: readonly Row[];
  readonly next: Cursor;
  readonly more: boolean;
  readonly head: number;
  readonly now: string;
}

export interface Missing {
  readonly missing: readonly Id[];
  readonly erased: readonly Id[];
}

export const write_cursor = (cursor: Cursor | undefined): string =>
  cursor === undefined ? '0' : `${String(cursor.epoch)}.${String(cursor.seq)}`;

export function read_cursor(value: Json | undefined): Cursor | undefined {
  const parts = is_text(value) ? /^(\d+)\.(\d+)$/.exec(value) : null;
  return parts === null ? undefined : { epoch: Number(parts[1]), seq: Number(parts[2]) };
}

/** undefined: no page of ours. One row that cannot be read spoils its page: a row must not be lost in silence. */
export function read_page(text: string): Page | undefined {
  const reply = parse_json(text);
  if (!is_object(reply)) return undefined;
  const { more, now } = reply;
  const rows = read_all(reply['rows'], read_row);
  const next = read_cursor(reply['next']);
  const head = read_head(reply['head']);
  if (rows === undefined || next === undefined || head === undefined) return undefined;
  if (typeof more !== 'boolean' || !is_text(now)) return undefined;
  return { rows, next, more, head, now };
}

/** `head` is told as a bare number or as a cursor. */
function read_head(value: Json | undefined): number | undefined {
  return is_count(value) ? value : read_cursor(value)?.seq;
}

export function read_missing(text: string): Missing | undefined {
  const reply = parse_json(text);
  if (!is_object(reply)) return undefined;
  const { missing, erased } = reply;
  return is_text_list(missing) && is_text_list(erased) ? { missing, erased } : undefined;
}

function read_row(value: Json): Row | undefined {
  if (!is_object(value) || !is_count(value['seq'])) return undefined;
  return value['type'] === 'sheet' ? read_sheet_row(value, value['seq']) : read_line_row(value, value['seq']);
}

function read_line_row(value: JsonObject, seq: number): LineRow | undefined {
  const { type, body_hash, received_at, clock_skew_ms } = value;
  const written = read_written(value['written']);
  if (written === undefined || (type !== 'entry' && type !== 'edit')) return undefined;
  if (!is_text(body_hash) || !is_text(received_at) || !is_whole(clock_skew_ms)) return undefined;
  const outcome = read_outcome(value['outcome']);
  if (type === 'edit' && outcome === undefined) return undefined;
  return { type, seq, written, body_hash, received_at, clock_skew_ms, ...(outcome && { outcome }) };
}

function read_outcome(value: Json | undefined): EditOutcome | undefined {
  if (!is_object(value)) return undefined;
  const { type, record, values, rev, field_revs, conflicts } = value;
  if (!is_text(type) || !is_text(record) || !is_object(values) || !is_count(rev)) return undefined;
  const revs = read_revs(field_revs);
  return revs && { type, record, values, rev, field_revs: revs, conflicts: read_conflicts(conflicts) };
}

function read_revs(value: Json | undefined): Record<string, number> | undefined {
  if (!is_object(value)) return undefined;
  const revs: Record<string, number> = {};
  for (const [field, rev] of Object.entries(value)) {
    if (!is_count(rev)) return undefined;
    revs[field] = rev;
  }
  return revs;
}

function read_sheet_row(value: JsonObject, seq: number): SheetRow | undefined {
  const sheet = value['sheet'];
  if (!is_object(sheet)) return undefined;
  const { key, kind, as_of, made_at, inputs, content } = sheet;
  if (!is_text(key) || !is_text(kind) || !is_count(as_of) || !is_text(made_at)) return undefined;
  return {
    type: 'sheet',
    seq,
    sheet: { key, kind, as_of, made_at, inputs: inputs ?? null, content: content ?? null },
  };
}
