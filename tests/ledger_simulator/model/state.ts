/** What the model server keeps of one household. Values are never changed in place, so a copy of the maps is a backup. */
import type { JsonObject } from '../../../frontend/src/wire/json.ts';
import type { Hash, Id, Written } from '../../../frontend/src/wire/written.ts';
import type { RecordState } from './merge.ts';

export interface KeptLine {
  readonly seq: number;
  readonly written: Written;
  readonly hash: string;
  readonly received_at: string;
  readonly clock_skew_ms: number;
  readonly outcome?: JsonObject;
}

export interface Device {
  readonly people: readonly Id[];
  readonly codes: { readonly from: number; readonly to: number };
  readonly highest_code: number;
  readonly signed_in: boolean;
  readonly revoked: boolean;
  /** Made for a copy of that device's store. */
  readonly renewed_from?: Id;
  readonly seen: boolean;
}

export class State {
  household = '';
  epoch = 1;
  next_seq = 1;
  next_code = 1;
  lines = new Map<Id, KeptLine>();
  /** Rows as pulled, by number. */
  feed = new Map<number, JsonObject>();
  sheets = new Map<string, number>();
  replaced = new Set<number>();
  records = new Map<string, RecordState>();
  /** `lot/<id>`, `space/<id>` ...: what a line may name. */
  things = new Set<string>();
  devices = new Map<Id, Device>();
  /** Ids by `<device>/<device_no>`. */
  numbers = new Map<string, readonly Id[]>();
  photos = new Set<Hash>();
  erased = new Set<Id>();

  copy(): State {
    const other = new State();
    Object.assign(other, this);
    for (const [name, value] of Object.entries(this)) {
      if (value instanceof Map) Object.assign(other, { [name]: new Map(value) });
      if (value instanceof Set) Object.assign(other, { [name]: new Set(value) });
    }
    return other;
  }

  record(type: string, id: Id): RecordState | undefined {
    return this.records.get(`${type}/${id}`);
  }

  get head(): number {
    return this.next_seq - 1;
  }
}
