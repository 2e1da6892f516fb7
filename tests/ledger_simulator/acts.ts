/** What people do on their phones: drawn by dice from what their phone shows them. */
import { drop, mend, send_again } from '../../frontend/src/ledger/tray.ts';
import { keep_photo } from '../../frontend/src/ledger/photos.ts';
import { edit, record_all, strike } from '../../frontend/src/ledger/record.ts';
import { hash_of } from '../../frontend/src/ledger/hashing.ts';
import { begun_by } from './model/kinds.ts';
import type { Body, Line, NewEntry } from '../../frontend/src/ledger/shapes.ts';
import type { EntryRow, TrayRow } from '../../frontend/src/ledger/store.ts';
import type { Id } from '../../frontend/src/wire/written.ts';
import type { Dice } from './dice.ts';
import type { Phone } from './phone.ts';
import type { Story } from './story.ts';

const CROPS = ['carrot', 'onion', 'cabbage'];
const NAMES = ['by the door', 'north wall', 'under the stairs', 'old crate', 'top shelf'];

export class Acts {
  readonly #story: Story;

  constructor(story: Story) {
    this.#story = story;
  }

  /** Something that happened to the store. */
  async record(phone: Phone, dice: Dice): Promise<void> {
    const entry = await this.#entry(phone, dice);
    if (entry === undefined) return;
    if (entry.kind === 'move' && entry.body['all'] === false) phone.world.count('part moved');
    this.#keep(phone, record_all(phone.core)([entry]));
  }

  async #entry(phone: Phone, dice: Dice): Promise<NewEntry | undefined> {
    const rows = await phone.disk.rows('entries');
    const lot = dice.pick(lots_in(rows));
    const spaces = await phone.disk.rows('records');
    const space = dice.pick(spaces.filter((row) => row.type === 'space'))?.id;
    if (space === undefined) return undefined;
    if (lot === undefined) return put_away(dice, space);
    const kind = dice.weighted({
      put_away: 3,
      take: 5,
      count: 2,
      part: 3,
      whole: 1,
      inspection: 4,
      reading: 2,
      suspect: 3,
      decision: 3,
    });
    switch (kind) {
      case 'put_away':
        return put_away(dice, space);
      case 'take':
        return {
          kind: 'take',
          body: { lot, grams: 100 * (1 + dice.below(9)), for: dice.pick(['eat', 'give']) ?? 'eat' },
        };
      case 'count':
        return { kind: 'count', body: { lot, grams: 100 * dice.below(60), gone: 'eaten' } };
      case 'part':
        return {
          kind: 'move',
          body: { lot, all: false, space, grams: 500 * (1 + dice.below(4)) },
          code: String,
        };
      case 'whole':
        return { kind: 'move', body: { lot, all: true, space } };
      case 'inspection':
        return { kind: 'inspection', body: inspection(dice, lot, space) };
      case 'reading':
        return { kind: 'reading', body: { space, temp_c: dice.below(120) / 10 } };
      case 'suspect':
        return { kind: 'suspect', body: { lot, findings: ['unsure'], lies: 'held' } };
      case 'decision': {
        const suspect = dice.pick(
          rows.filter((row) => row.written.kind === 'suspect' && row.standing !== 'refused'),
        )?.id;
        return suspect === undefined
          ? undefined
          : { kind: 'decision', body: { suspect, do: dice.pick(['keep', 'compost', 'cook']) ?? 'keep' } };
      }
    }
  }

  /** Written wrong: the server will take nothing of it. */
  async bad(phone: Phone, dice: Dice): Promise<void> {
    const entry = await this.#entry(phone, dice);
    if (entry === undefined) return;
    const id = phone.core.mint_id();
    this.#story.bad.add(id);
    const wrong = dice.weighted({ grams: 2, field: 2, kind: 1 });
    const kind = wrong === 'kind' ? 'unheard_of' : entry.kind;
    const spoilt: Body = wrong === 'grams' && 'grams' in entry.body ? { grams: -1 } : { nonsense: 1 };
    const body: Body = wrong === 'kind' ? entry.body : { ...entry.body, ...spoilt };
    this.#keep(phone, record_all(phone.core)([{ ...entry, id, kind, body }]));
  }

  /** A line on a lot read off its label: this phone may never have heard of it. */
  async label(phone: Phone, dice: Dice, other: Phone): Promise<void> {
    const lot = dice.pick(lots_in(await other.disk.rows('entries')));
    if (lot)
      this.#keep(phone, record_all(phone.core)([{ kind: 'take', body: { lot, grams: 100, for: 'eat' } }]));
  }

  async photo(phone: Phone, dice: Dice): Promise<void> {
    const lot = dice.pick(lots_in(await phone.disk.rows('entries')));
    if (lot === undefined) return;
    const bytes = Uint8Array.from(dice.bytes(24)).buffer;
    const hash = hash_of(bytes);
    const ready = { hash, type: 'image/jpeg', bytes, taken_at: new Date(phone.world.now).toISOString() };
    const { core } = phone;
    const entry: NewEntry = {
      kind: 'suspect',
      body: { lot, findings: ['unsure'], lies: 'set_apart' },
      photos: [hash],
    };
    this.#keep(
      phone,
      keep_photo(core)(ready, 'round').then(() => record_all(core)([entry])),
    );
    phone.world.count('photo taken');
  }

  async strike(phone: Phone, dice: Dice): Promise<void> {
    const rows = (await phone.disk.rows('entries')).filter(
      (row) => row.written.kind !== 'edit' && row.standing !== 'refused',
    );
    // Strikes of strikes come often enough to meet each other.
    const strikes = rows.filter((row) => row.written.kind === 'strike');
    const row = dice.chance(0.3) ? dice.pick(strikes) : dice.pick(rows);
    if (row)
      this.#keep(
        phone,
        strike(phone.core)(row.id).then((line) => [line]),
      );
    if (row) phone.world.count(row.written.kind === 'strike' ? 'strike of a strike' : 'strike');
  }

  async edit(phone: Phone, dice: Dice): Promise<void> {
    const records = await phone.disk.rows('records');
    const type = dice.weighted({ space: 3, lot: 3, new_space: 1 });
    const record =
      type === 'new_space' ? phone.core.mint_id() : dice.pick(records.filter((row) => row.type === type))?.id;
    if (record === undefined) return;
    const name = dice.pick(NAMES) ?? '';
    const set =
      type === 'lot' ? { [dice.pick(['label', 'notes']) ?? 'label']: name } : this.#space(dice, name, type);
    this.#keep(
      phone,
      edit(phone.core)({ type: type === 'lot' ? 'lot' : 'space', record, set }).then((line) => [line]),
    );
    phone.world.count('edit');
  }

  #space(dice: Dice, name: string, type: string): Body {
    if (type === 'new_space' || dice.chance(0.6)) return { name };
    return dice.chance(0.5) ? { note: name } : { archived: dice.chance(0.5) };
  }

  /** The keeper changes what somebody may do. */
  role(keeper: Phone, dice: Dice, person: Id): void {
    const role = dice.pick(['adult', 'rounds', 'child']) ?? 'adult';
    this.set_role(keeper, person, role);
  }

  set_role(keeper: Phone, person: Id, role: string): void {
    this.#keep(
      keeper,
      edit(keeper.core)({ type: 'person', record: person, set: { role } }).then((line) => [line]),
    );
    keeper.world.count('role changed');
  }

  /** Somebody looks after what needs them. */
  async tray(phone: Phone, dice: Dice): Promise<void> {
    const row = dice.pick((await phone.disk.rows('tray')).filter((one) => one.settled === undefined));
    if (row) this.settle(phone, row, dice.weighted({ mend: 5, again: 2, drop: 1 }));
  }

  settle(phone: Phone, row: TrayRow, how: 'mend' | 'again' | 'drop'): void {
    const { core, world } = phone;
    const lost = row.refusal.code === 'erased' || row.written.kind === 'unheard_of';
    const way = lost ? 'drop' : how;
    this.#story.settled.add(`${phone.name} ${row.id}`);
    world.count(`tray ${way}`);
    if (way === 'drop') {
      this.#story.dropped.add(row.id);
      this.#heard(phone, drop(core)(row.key));
    } else if (way === 'mend' && (this.#story.bad.has(row.id) || row.refusal.code === 'id_reused')) {
      this.#back(phone, mend(core)(row.key, mended(row.written.body)));
    } else {
      this.#back(phone, send_again(core)(row.key));
    }
  }

  #back(phone: Phone, kept: Promise<readonly Line[]>): void {
    const heard = kept.then((lines) => {
      for (const { written } of lines) {
        this.#story.out_of_order.add(written.id);
        this.#story.settled.add(`${phone.name} ${written.id}`);
        this.#story.word(written);
      }
    });
    this.#heard(phone, heard);
  }

  #keep(phone: Phone, kept: Promise<readonly Line[]>): void {
    const { world } = phone;
    const now = world.now;
    const heard = kept.then((lines) => {
      for (const line of lines) this.#story.keep(phone.name, line, now);
    });
    this.#heard(phone, heard);
  }

  /** What a person asked for twice, or of a row that is settled meanwhile, is answered by trouble and no more. */
  #heard(phone: Phone, act: Promise<void>): void {
    act.catch((error: unknown) => {
      if (!(error instanceof Error) || error.name !== 'LedgerTrouble') phone.world.errors.push(error);
    });
  }
}

function put_away(dice: Dice, space: Id): NewEntry {
  const crop = dice.pick(CROPS) ?? 'carrot';
  return {
    kind: 'put_away',
    body: { crop, space, pack: 'crate', grams: 1000 * (1 + dice.below(20)) },
    code: String,
  };
}

function inspection(dice: Dice, lot: Id, space: Id): Body {
  const out = dice.chance(0.5)
    ? [{ grams: 100 * (1 + dice.below(5)), findings: ['soft_rot'], went: [{ step: 'compost' }] }]
    : [];
  return { lot, space, way: 'sample', looked: 10, counted: false, seen: [], out, trims: [] };
}

export const lots_in = (rows: readonly EntryRow[]): readonly Id[] =>
  rows.filter((row) => begun_by(row.written) === 'lot' && row.standing !== 'refused').map((row) => row.id);

function mended(body: Body): Body {
  const { nonsense, ...rest } = body;
  return typeof rest['grams'] === 'number' && rest['grams'] < 0 ? { ...rest, grams: 700 } : rest;
}
