/** Merging an edit into a record, field by field, as `homestead/ledger/merge.py` does. */
import type { Json, JsonObject } from '../../../frontend/src/wire/json.ts';
import { same_json } from './canonical.ts';

/** What last set a field. */
export interface Stand {
  readonly rev: number;
  readonly when_ms: number;
  readonly device: string;
  readonly no: number;
  readonly person: string;
  readonly line: string;
  readonly at: string;
}

export type Fields = Readonly<Record<string, Stand>>;

export interface RecordState {
  readonly rev: number;
  readonly values: JsonObject;
  readonly fields: Fields;
}

export interface Edit extends Omit<Stand, 'rev'> {
  readonly base_rev: number;
  readonly set: JsonObject;
}

export interface Merged extends RecordState {
  readonly conflicts: readonly JsonObject[];
}

export const NO_RECORD: RecordState = { rev: 0, values: {}, fields: {} };

export function merge(record: RecordState, edit: Edit): Merged {
  const base = Math.min(edit.base_rev, record.rev);
  const rev = record.rev + 1;
  const values: Record<string, Json> = { ...record.values };
  const fields: Record<string, Stand> = { ...record.fields };
  const conflicts: JsonObject[] = [];
  for (const [field, value] of Object.entries(edit.set)) {
    const stand = record.fields[field];
    const old = record.values[field] ?? null;
    if (stand !== undefined && stand.rev > base) {
      const later = is_later(edit, stand);
      const differs = !same_json(old, value);
      if (differs && edit.device !== stand.device)
        conflicts.push(conflict(field, old, stand, value, edit, later));
      if (!later) continue;
    }
    values[field] = value;
    fields[field] = stand_of(edit, rev);
  }
  return { rev, values, fields, conflicts };
}

const stand_of = ({ when_ms, device, no, person, line, at }: Edit, rev: number): Stand => ({
  rev,
  when_ms,
  device,
  no,
  person,
  line,
  at,
});

function is_later(edit: Edit, stand: Stand): boolean {
  if (edit.device === stand.device) return edit.no > stand.no;
  return edit.when_ms !== stand.when_ms ? edit.when_ms > stand.when_ms : edit.device > stand.device;
}

function conflict(
  field: string,
  old: Json,
  stand: Stand,
  value: Json,
  edit: Edit,
  later: boolean,
): JsonObject {
  const loser = later ? stand : stand_of(edit, 0);
  return {
    field,
    standing: later ? value : old,
    other: later ? old : value,
    other_edit: loser.line,
    other_person: loser.person,
    other_at: loser.at,
    standing_person: later ? edit.person : stand.person,
  };
}
