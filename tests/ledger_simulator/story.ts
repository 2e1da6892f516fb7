/** What really happened, as only the simulation knows it: the invariants are checked against this. */
import type { Line } from '../../frontend/src/ledger/shapes.ts';
import type { Id, Written } from '../../frontend/src/wire/written.ts';
import { body_hash } from './model/canonical.ts';

export class Story {
  /** Lines a phone said are kept, with that phone's name. */
  readonly confirmed = new Map<Id, string>();
  /** Hash of what was written under an id and a number of a phone: no such wording ever changes. */
  readonly wordings = new Map<string, string>();
  /** Written wrong on purpose. */
  readonly bad = new Set<Id>();
  /** Let go by a person. */
  readonly dropped = new Set<Id>();
  readonly erased = new Set<Id>();
  /** Refused at some time, mended, or brought back by another phone: out of the order of their phone. */
  readonly out_of_order = new Set<Id>();
  /** Tray rows a person settled, by phone. */
  readonly settled = new Set<string>();
  /** Lines the server ever gave a receipt for. */
  readonly receipted = new Set<Id>();
  /** Skews with which the server ever had a line. */
  readonly skews = new Map<Id, Set<number>>();
  /** True time of recording. */
  readonly written_at = new Map<Id, number>();

  keep(phone: string, line: Line, now: number): void {
    const { written } = line;
    this.confirmed.set(written.id, phone);
    this.written_at.set(written.id, this.written_at.get(written.id) ?? now);
    this.word(written);
  }

  /** False when the same wording was different before. */
  word(written: Written): boolean {
    const key = `${written.id}/${written.device}/${String(written.device_no)}`;
    const hash = body_hash(written);
    const known = this.wordings.get(key) ?? hash;
    this.wordings.set(key, known);
    return known === hash;
  }
}
