/** What `POST /api/v1/sync/push` takes and answers. */
import {
  is_count,
  is_list,
  is_object,
  is_text,
  is_whole,
  parse_json,
  read_all,
  type Json,
  type JsonObject,
} from './json.ts';
import type { Id, Written } from './written.ts';

export interface PushLine {
  readonly written: Written;
  /** Healed after a reset; it keeps the skew measured when it first came. */
  readonly recovered?: { readonly clock_skew_ms: number };
}

export interface PushBody {
  readonly device: Id;
  readonly sent_at: string;
  readonly build: string;
  /** Lot numbers the phone can give still, and the last it was given: those on blank labels are used up too. */
  readonly codes: { readonly left: number; readonly to: number };
  readonly lines: readonly PushLine[];
}

/** The other value of a field two people edited. */
export interface FieldConflict {
  readonly field: string;
  readonly standing: Json;
  readonly other: Json;
  readonly other_edit?: Id;
  readonly other_person?: Id;
  readonly other_at?: string;
  readonly standing_person?: Id;
}

export type Receipt =
  | {
      readonly id: Id;
      readonly result: 'accepted' | 'duplicate';
      readonly seq: number;
      readonly conflicts: readonly FieldConflict[];
    }
  | {
      readonly id: Id;
      readonly result: 'refused';
      readonly code: string;
      readonly message: string;
      readonly permanent: boolean;
      readonly facts: JsonObject;
    };

export interface PushReply {
  /** Only those this build could read: a line without a receipt stays where it is. */
  readonly receipts: readonly Receipt[];
  readonly codes?: { readonly from: number; readonly to: number };
  readonly renew?: { readonly device: Id };
  /** Server less phone, as measured with this push. */
  readonly clock_skew_ms?: number;
  readonly now: string;
}

/** undefined: no answer of ours, and nothing may change because of it. */
export function read_push_reply(text: string): PushReply | undefined {
  const reply = parse_json(text);
  if (!is_object(reply) || !is_list(reply['receipts']) || !is_text(reply['now'])) return undefined;
  const codes = read_codes(reply['codes']);
  const renew = read_renew(reply['renew']);
  return {
    receipts: reply['receipts'].map(read_receipt).filter((receipt) => receipt !== undefined),
    now: reply['now'],
    ...(codes && { codes }),
    ...(renew && { renew }),
    ...(is_whole(reply['clock_skew_ms']) && { clock_skew_ms: reply['clock_skew_ms'] }),
  };
}

export function read_codes(value: Json | undefined): { from: number; to: number } | undefined {
  if (!is_object(value)) return undefined;
  const { from, to } = value;
  return is_count(from) && is_count(to) && from <= to ? { from, to } : undefined;
}

function read_renew(value: Json | undefined): { device: Id } | undefined {
  return is_object(value) && is_text(value['device']) ? { device: value['device'] } : undefined;
}

function read_receipt(value: Json): Receipt | undefined {
  if (!is_object(value)) return undefined;
  const { id, result, seq, code, message, permanent, facts, conflicts } = value;
  if (!is_text(id)) return undefined;
  if ((result === 'accepted' || result === 'duplicate') && is_count(seq)) {
    return { id, result, seq, conflicts: read_conflicts(conflicts) };
  }
  if (result === 'refused' && is_text(code) && typeof permanent === 'boolean') {
    return {
      id,
      result,
      code,
      permanent,
      message: is_text(message) ? message : code,
      facts: is_object(facts) ? facts : {},
    };
  }
  return undefined;
}

export function read_conflicts(value: Json | undefined): FieldConflict[] {
  return read_all(value, read_conflict) ?? [];
}

function read_conflict(value: Json): FieldConflict | undefined {
  if (!is_object(value)) return undefined;
  const { field, standing, other, other_edit, other_person, other_at, standing_person } = value;
  if (!is_text(field)) return undefined;
  return {
    field,
    standing: standing ?? null,
    other: other ?? null,
    ...(is_text(other_edit) && { other_edit }),
    ...(is_text(other_person) && { other_person }),
    ...(is_text(other_at) && { other_at }),
    ...(is_text(standing_person) && { standing_person }),
  };
}
