/** The invariants, checked after every step. Each failure names the one that broke. */
import { read_status, STATUS_STORES } from '../../frontend/src/ledger/lines.ts';
import { as_record } from '../../frontend/src/ledger/records.ts';
import type {
  EntryRow,
  MetaRows,
  OutboxRow,
  PhotoRow,
  Row,
  StoreName,
  TrayRow,
} from '../../frontend/src/ledger/store.ts';
import { read_edit, type Id } from '../../frontend/src/wire/written.ts';
import { body_hash } from './model/canonical.ts';
import type { Phone } from './phone.ts';
import type { Story } from './story.ts';
import type { World } from './world.ts';

export class Broken extends Error {
  override readonly name = 'Broken';
}

export function hold(invariant: number, holds: boolean, what: () => string): void {
  if (!holds) throw new Broken(`invariant ${String(invariant)}: ${what()}`);
}

/** What a phone has on its disk, read once a step. */
export interface Held {
  readonly entries: readonly EntryRow[];
  readonly by_id: ReadonlyMap<Id, EntryRow>;
  readonly outbox: readonly OutboxRow[];
  readonly tray: readonly TrayRow[];
  readonly photos: readonly PhotoRow[];
  readonly records: readonly Row<'records'>[];
  readonly feed: MetaRows['feed'] | undefined;
}

export async function held_by(phone: Phone): Promise<Held> {
  const entries = await phone.disk.rows('entries');
  const meta = await phone.disk.rows('meta');
  const feed = meta.find((row) => row.name === 'feed');
  return {
    entries,
    by_id: new Map(entries.map((row) => [row.id, row])),
    outbox: await phone.disk.rows('outbox'),
    tray: await phone.disk.rows('tray'),
    photos: await phone.disk.rows('photos'),
    records: await phone.disk.rows('records'),
    feed: feed?.name === 'feed' ? feed.value : undefined,
  };
}

interface Before {
  readonly outbox: ReadonlyMap<number, Id>;
  readonly tray: ReadonlyMap<string, boolean>;
  readonly cursor: MetaRows['feed']['cursor'];
  readonly generation: number;
}

export class Watch {
  readonly #world: World;
  readonly #story: Story;
  readonly #before = new Map<string, Before>();
  /** Ids in the order in which each phone first had them. */
  readonly arrivals = new Map<string, Set<Id>>();

  constructor(world: World, story: Story) {
    this.#world = world;
    this.#story = story;
  }

  async step(phones: readonly Phone[]): Promise<void> {
    const error = this.#world.errors[0];
    if (error !== undefined) throw error;
    this.server();
    const all = new Map<string, Held>();
    for (const phone of phones) {
      const held = await held_by(phone);
      all.set(phone.name, held);
      this.#phone(phone, held);
    }
    this.#confirmed(all);
  }

  /** 4: every number once, none left out but those of sheets that were replaced or lines erased. */
  server(): void {
    const { state } = this.#world.server;
    const seqs = [...state.lines.values()].map((line) => line.seq).concat([...state.sheets.values()]);
    hold(4, new Set(seqs).size === seqs.length, () => 'a number given twice');
    const gaps = state.head - seqs.length - state.replaced.size;
    hold(4, gaps === 0, () => `${String(gaps)} numbers are missing up to ${String(state.head)}`);
    for (const id of state.erased) hold(22, !state.lines.has(id), () => `erased ${id} is back`);
  }

  #phone(phone: Phone, held: Held): void {
    const arrived = this.arrivals.get(phone.name) ?? new Set();
    for (const { id } of held.entries) arrived.add(id);
    this.arrivals.set(phone.name, arrived);
    this.#waiting(phone, held);
    this.#outbox_left(phone, held);
    this.#tray_left(phone, held);
    this.#cursor(phone, held);
    this.#refusals(held);
    this.#painted(phone, held);
    this.#photos(phone, held);
    this.#before.set(phone.name, {
      outbox: new Map(held.outbox.map((row) => [row.no, row.id])),
      tray: new Map(held.tray.map((row) => [row.key, row.settled !== undefined])),
      cursor: held.feed?.cursor,
      generation: held.feed?.generation ?? 0,
    });
  }

  /** 11: an entry waits when, and only when, it has its outbox row; and 3: both hold the same wording. */
  #waiting(phone: Phone, { entries, by_id, outbox }: Held): void {
    const waiting = entries.filter((row) => row.standing === 'waiting').length;
    const queued = new Set(outbox.map((row) => row.id));
    hold(
      11,
      waiting === queued.size,
      () => `${phone.name}: ${String(waiting)} wait, ${String(queued.size)} queued`,
    );
    for (const row of outbox) {
      const entry = by_id.get(row.id);
      hold(
        11,
        entry?.standing === 'waiting',
        () => `${phone.name}: ${row.id} is queued and ${entry?.standing ?? 'gone'}`,
      );
      hold(3, this.#story.word(row.written), () => `${phone.name}: the wording of ${row.id} changed`);
    }
  }

  /** 12: a row leaves the outbox only by a receipt of the server, or for the tray. */
  #outbox_left(phone: Phone, { outbox, tray }: Held): void {
    const now = new Set(outbox.map((row) => row.no));
    for (const [no, id] of this.#before.get(phone.name)?.outbox ?? []) {
      if (now.has(no)) continue;
      const told = this.#story.receipted.has(id) || tray.some((row) => row.id === id);
      hold(12, told, () => `${phone.name}: ${id} left the outbox without a receipt`);
    }
  }

  /** 13: no refused line goes, or is settled, but by a person. */
  #tray_left(phone: Phone, { tray }: Held): void {
    const now = new Map(tray.map((row) => [row.key, row]));
    for (const [key, settled] of this.#before.get(phone.name)?.tray ?? []) {
      const row = now.get(key);
      hold(13, row !== undefined, () => `${phone.name}: ${key} is gone from the tray`);
      const with_parent = row?.settled === 'sent_again' && row.refusal.code === 'parent_refused';
      const by_person =
        row?.settled === undefined || settled || with_parent || this.#settled_by_person(phone, key);
      hold(13, by_person, () => `${phone.name}: ${key} was settled by nobody`);
    }
  }

  #settled_by_person(phone: Phone, key: string): boolean {
    return this.#story.settled.has(`${phone.name} ${key.slice(0, key.indexOf('/'))}`);
  }

  /** 7: never beyond what is stored, never back; 6: nothing appears behind it. */
  #cursor(phone: Phone, { feed, by_id }: Held): void {
    const before = this.#before.get(phone.name);
    const cursor = feed?.cursor;
    if (feed === undefined || cursor === undefined) return;
    if (before?.cursor && before.generation === feed.generation) {
      const back = cursor.epoch !== before.cursor.epoch || cursor.seq < before.cursor.seq;
      hold(7, !back, () => `${phone.name}: the cursor went back to ${String(cursor.seq)}`);
    }
    const { state } = this.#world.server;
    if (cursor.epoch !== state.epoch) return;
    for (const line of state.lines.values()) {
      if (line.seq > cursor.seq) continue;
      const held = by_id.has(line.written.id);
      hold(
        6,
        held,
        () =>
          `${phone.name}: ${String(line.seq)} lies behind the cursor ${String(cursor.seq)} and is not here`,
      );
    }
  }

  /** 14: what was refused for its own fault was written wrong. */
  #refusals({ tray }: Held): void {
    for (const { id, refusal } of tray) {
      const own_fault =
        refusal.code === 'shape' || refusal.code === 'grams' || refusal.code === 'unknown_kind';
      hold(
        14,
        !own_fault || this.#story.bad.has(id),
        () => `${id} was refused as ${refusal.code} and was not written wrong`,
      );
    }
  }

  /** 19: an edit whose result is not known is what this phone shows. */
  #painted(phone: Phone, { outbox, records, by_id, feed }: Held): void {
    const shown = new Map<string, string>();
    for (const { id, written } of outbox) {
      const entry = by_id.get(id);
      const known = entry?.seq !== undefined && entry.generation === feed?.generation;
      const edit = known ? undefined : read_edit(written);
      for (const [field, value] of Object.entries(edit?.set ?? {})) {
        shown.set(`${edit?.type ?? ''}/${edit?.record ?? ''} ${field}`, JSON.stringify(value));
      }
    }
    if (shown.size === 0) return;
    const now = new Map(records.map((row) => [row.key, as_record(row)]));
    for (const [place, value] of shown) {
      const [key = '', field = ''] = place.split(' ');
      const there = JSON.stringify(now.get(key)?.values[field]);
      hold(
        19,
        there === value || now.get(key)?.pending.includes(field) === true,
        () => `${phone.name}: ${place} shows ${there}, not ${value}`,
      );
    }
  }

  /** 26: bytes the server has not confirmed are whole. */
  #photos(phone: Phone, { photos }: Held): void {
    for (const photo of photos) {
      const unsent =
        photo.standing === 'drafted' || photo.standing === 'to_send' || photo.standing === 'held';
      hold(26, !unsent || photo.whole, () => `${phone.name}: photo ${photo.hash} was let go unsent`);
    }
  }

  /** 1: what was confirmed is in its phone's outbox or tray or on the server, or on its way back there after a reset. */
  #confirmed(all: ReadonlyMap<string, Held>): void {
    const { state } = this.#world.server;
    for (const [id, name] of this.#story.confirmed) {
      if (state.lines.has(id) || state.erased.has(id)) continue;
      const held = all.get(name);
      const waits =
        held?.by_id.get(id)?.standing === 'waiting' || held?.tray.some((row) => row.id === id) === true;
      if (waits) continue;
      const unaware = held?.feed?.healing === true || held?.feed?.cursor?.epoch !== state.epoch;
      hold(1, unaware && held?.by_id.has(id) === true, () => `${id} of ${name} is lost`);
    }
  }
}

/** 35: the status line says what the stores hold. */
export async function check_status(phone: Phone, held: Held): Promise<void> {
  const status = await phone.core.store.read(STATUS_STORES, read_status);
  const open = held.tray.filter((row) => row.settled === undefined).length;
  const photos = held.photos.filter((photo) => photo.standing === 'to_send').length;
  const right =
    status.to_send === held.outbox.length && status.needs_you === open && status.photos_to_send === photos;
  hold(35, right, () => `${phone.name}: ${JSON.stringify(status)}`);
}

/** All rows but what stops the exchange: what an unknown reply must leave as it was (invariant 15). */
export async function fingerprint(phone: Phone): Promise<string> {
  const names: readonly StoreName[] = [
    'entries',
    'outbox',
    'records',
    'sheets',
    'photos',
    'tray',
    'conflicts',
  ];
  const rows: unknown[] = await Promise.all(names.map((name) => phone.disk.rows(name)));
  const meta = (await phone.disk.rows('meta')).filter((row) => row.name !== 'halt');
  return JSON.stringify([...rows, meta]);
}
