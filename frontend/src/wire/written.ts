/** A line as a phone wrote it: an entry or an edit. */
import { is_count, is_object, is_text, is_text_list, same_json, type Json, type JsonObject } from './json.ts';

/** UUID, lower case. */
export type Id = string;
/** SHA-256, 64 hex digits. */
export type Hash = string;
export type Body = JsonObject;

/** Nothing alters it after it was written. Absent rather than null; fields this build does not know are kept. */
export interface Written {
  readonly id: Id;
  readonly household: Id;
  readonly device: Id;
  /** 1, 2, 3 ... on one phone, never back. */
  readonly device_no: number;
  readonly person: Id;
  readonly with?: readonly Id[];
  readonly kind: string;
  readonly schema: number;
  /** ISO 8601 with milliseconds and offset, for example `2026-11-25T10:24:53.123+01:00`. */
  readonly happened_at: string;
  readonly dated: 'clock' | 'person';
  readonly body: Body;
  readonly strikes?: Id;
  readonly photos?: readonly Hash[];
}

/** The body of a line of kind `edit`. */
export interface EditBody {
  readonly type: string;
  readonly record: Id;
  readonly base_rev: number;
  readonly set: JsonObject;
}

const absent_or = (value: Json | undefined, is: (value: Json) => boolean): boolean =>
  value === undefined || is(value);

const has_shape = (value: JsonObject): boolean =>
  ['id', 'household', 'device', 'person', 'kind', 'happened_at'].every((name) => is_text(value[name])) &&
  is_count(value['device_no']) &&
  is_count(value['schema']) &&
  (value['dated'] === 'clock' || value['dated'] === 'person') &&
  is_object(value['body']) &&
  absent_or(value['strikes'], is_text) &&
  absent_or(value['with'], is_text_list) &&
  absent_or(value['photos'], is_text_list);

/** The same line, word for word; the server may tell its fields in another order. */
export const same_written = (a: Written, b: Written): boolean => same_json({ ...a }, { ...b });

/** The line in a JSON value, the very object with all it holds, or undefined when it is no line. */
export function read_written(value: Json | undefined): Written | undefined {
  return is_written(value) ? value : undefined;
}

function is_written(value: Json | undefined): value is Json & Written {
  return is_object(value) && has_shape(value);
}

/** What an edit says, or undefined for other kinds and for edits this build cannot read. */
export function read_edit(written: Written): EditBody | undefined {
  const { type, record, base_rev, set } = written.body;
  if (
    written.kind !== 'edit' ||
    !is_text(type) ||
    !is_text(record) ||
    !is_count(base_rev) ||
    !is_object(set)
  ) {
    return undefined;
  }
  return { type, record, base_rev, set };
}
