/**
 * All entries held, which lot each names, and the lots made of them. Twin: `homestead/storekeeping/folded.py`.
 *
 * A lot is folded from its birth on through the entries that name it; a part is born with what the lot it came from
 * had at that moment, so it is folded after it.
 */
import { count, inspection } from './counting.ts';
import { type Zone, zone_named } from './days.ts';
import { cull, take, trim } from './leaving.ts';
import { type EventOf, Lot, type Origin } from './lot.ts';
import { move, put_away_origin, put_by, put_by_origin, set_aside } from './moving.ts';
import {
  arranged,
  by_device_no,
  by_key,
  doubt_clocks,
  type Event,
  ground_of,
  NAMES_A_LOT,
  PLAIN_FACTS,
  RESTS_ON_OTHERS,
  settle_strikes,
  struck_of,
} from './order.ts';
import type { Flag, Setting } from './state.ts';
import { chore_done, decision, suspect } from './suspects.ts';

const ASKED_BY_KIND: ReadonlySet<string> = new Set([
  ...PLAIN_FACTS,
  'strike',
  'claim',
  'offer',
  'chore_done',
  'scrap',
]);

type Shelf = Map<string, Map<string, Event>>;

/** Ask by the functions of `fold`; write nothing in it. */
export class Folded {
  setting: Setting;
  readonly zone: Zone;
  readonly events = new Map<string, Event>();
  readonly lots = new Map<string, Lot>();
  readonly #of_kind: Shelf = new Map();
  readonly #of_device = new Map<string, Event[]>();
  readonly #naming: Shelf = new Map();
  readonly #resting_on: Shelf = new Map();
  readonly #strikes_on: Shelf = new Map();

  constructor(setting: Setting) {
    this.setting = setting;
    this.zone = zone_named(setting.zone);
  }

  // -- which lot an entry is about

  /** The lots whose life an entry belongs to, known here or not; its own lot not among them. */
  lots_named(event: Event): readonly string[] {
    if (event.kind === 'put_by') {
      return [...new Set(event.body.from.map((each) => each.lot).filter((lot) => lot !== event.id))];
    }
    if (event.kind === 'decision' || event.kind === 'chore_done') {
      const ground = this.events.get(ground_of(event) ?? '');
      const rests_on = event.kind === 'decision' ? 'suspect' : 'decision';
      return ground === undefined || ground.kind !== rests_on ? [] : this.lots_named(ground);
    }
    const lot = NAMES_A_LOT.has(event.kind) && 'lot' in event.body ? event.body.lot : undefined;
    return lot === undefined || lot === event.id ? [] : [lot];
  }

  /** Every entry of a lot's life, struck ones too, by F2. */
  naming(lot: string): Event[] {
    return [...(this.#naming.get(lot)?.values() ?? [])].sort(by_key);
  }

  /** Counting entries of one kind. */
  counting<K extends Event['kind']>(kind: K): EventOf<K>[] {
    const of_kind = [...(this.#of_kind.get(kind)?.values() ?? [])];
    return of_kind.filter((event): event is EventOf<K> => event.kind === kind && event.counts);
  }

  /** The lots in which an entry has its turn. */
  placed_in(event: Event): Lot[] {
    const placed: Lot[] = [];
    for (const id of this.lots_named(event)) {
      const lot = this.lots.get(id);
      if (lot?.placed.has(event.id)) placed.push(lot);
    }
    return placed;
  }

  shown_only(event: Event): boolean {
    return this.placed_in(event).some((lot) => lot.shown_only.has(event.id));
  }

  /** What is doubtful about an entry: its clock, what it names, what its lots say. */
  flags(event: Event): Flag[] {
    const flags: Flag[] = event.clock_doubted ? ['clock'] : [];
    if (!event.counts) return flags;
    const lots = this.placed_in(event);
    if (lots.length < this.#lots_needed(event)) flags.push('nothing_there');
    for (const flag of lots.flatMap((lot) => lot.flags.get(event.id) ?? [])) {
      if (!flags.includes(flag)) flags.push(flag);
    }
    return flags;
  }

  #lots_needed(event: Event): number {
    if (event.kind === 'put_by') return this.lots_named(event).length;
    if (event.kind === 'chore_done' && event.body.chore.includes('/')) return 0;
    return RESTS_ON_OTHERS.has(event.kind) ? 1 : 0;
  }

  // -- all at once

  fill(events: readonly Event[]): void {
    const in_order = [...events].sort(by_key);
    for (const event of in_order) this.events.set(event.id, event);
    for (const event of in_order) {
      this.#index(event, false);
      this.#name(event, false);
      this.#device(event).push(event);
    }
    this.#settle();
    for (const of_device of this.#of_device.values()) doubt_clocks(of_device.sort(by_device_no));
    for (const event of in_order) {
      if (event.kind === 'put_away' || event.kind === 'put_by') this.#refold(event.id);
    }
  }

  // -- one by one

  /** Takes one more entry; the ids of lots whose state may differ. */
  add(event: Event): Set<string> {
    this.events.set(event.id, event);
    this.#index(event, false);
    this.#name_with_what_rests(event, false);
    const of_device = this.#device(event);
    of_device.splice(place_of(of_device, event), 0, event);
    const changed =
      event.kind === 'strike' || this.#strikes_on.has(event.id) ? this.#settle() : new Set<string>();
    const touched = this.#doubt_near(event);
    add_all(touched, event.counts ? this.#place(event) : this.#about(event));
    changed.delete(event.id);
    return add_all(touched, this.#refold_for(changed));
  }

  /** Forgets an entry, refused or out of its place; the ids of lots whose state may differ. */
  remove(event: Event): Set<string> {
    event.counts = false;
    const touched = this.#doubt_near(event);
    const about = this.#about(event);
    const of_device = this.#device(event);
    of_device.splice(place_of(of_device, event), 1);
    this.#name_with_what_rests(event, true);
    this.#index(event, true);
    this.events.delete(event.id);
    const changed = new Set<string>();
    if (event.kind === 'strike') {
      const struck = this.events.get(struck_of(event));
      if (struck !== undefined) {
        changed.add(struck.id);
        struck.counts = true;
        struck.struck_by = null;
      }
      add_all(changed, this.#settle());
    }
    for (const lot of about) add_all(touched, this.#refold(lot));
    return add_all(touched, this.#refold_for(changed));
  }

  #settle(): Set<string> {
    return settle_strikes([...(this.#of_kind.get('strike')?.values() ?? [])], this.events);
  }

  #device(event: Event): Event[] {
    let of_device = this.#of_device.get(event.written.device);
    if (of_device === undefined) this.#of_device.set(event.written.device, (of_device = []));
    return of_device;
  }

  #doubt_near(event: Event): Set<string> {
    const of_device = this.#device(event);
    const touched = new Set<string>();
    for (const id of doubt_clocks(of_device, place_of(of_device, event))) {
      const doubted = this.events.get(id);
      if (doubted !== undefined) add_all(touched, this.#about(doubted));
    }
    return touched;
  }

  /** Lots an entry belongs to, with its own. */
  #about(event: Event): readonly string[] {
    const named = this.lots_named(event);
    return this.#naming.has(event.id) ? [...named, event.id] : named;
  }

  #index(event: Event, forget: boolean): void {
    const ground = ground_of(event);
    if (ground !== null) put(this.#resting_on, ground, event, forget);
    if (ASKED_BY_KIND.has(event.kind)) put(this.#of_kind, event.kind, event, forget);
    if (event.kind === 'strike') put(this.#strikes_on, struck_of(event), event, forget);
  }

  #name(event: Event, forget: boolean): void {
    for (const lot of this.lots_named(event)) put(this.#naming, lot, event, forget);
    if (event.kind === 'put_away' || event.kind === 'put_by' || (event.kind === 'move' && !event.body.all)) {
      put(this.#naming, event.id, event, forget);
    }
  }

  /** A suspect tells which lot its decisions are about, a decision which lot its chores are. */
  #name_with_what_rests(event: Event, forget: boolean): void {
    this.#name(event, forget);
    if (event.kind !== 'suspect' && event.kind !== 'decision') return;
    for (const resting of this.#resting_on.get(event.id)?.values() ?? [])
      this.#name_with_what_rests(resting, forget);
  }

  // -- folding

  /** An entry that sorts last is added to its lot; else that lot is folded anew. */
  #place(event: Event): Set<string> {
    const touched = new Set<string>();
    for (const id of this.lots_named(event)) {
      const lot = this.lots.get(id);
      if (lot === undefined || event.kind === 'scrap') {
        touched.add(id);
      } else if (by_key(event, lot.last_placed) > 0 && this.#comes_last(event, lot)) {
        apply(lot, event);
        touched.add(id);
      } else {
        add_all(touched, this.#refold(id));
      }
    }
    return this.#naming.has(event.id) ? add_all(touched, this.#refold(event.id)) : touched;
  }

  #comes_last(event: Event, lot: Lot): boolean {
    const ground = ground_of(event);
    const resting = this.#resting_on.get(event.id)?.size ?? 0;
    return (ground === null || lot.placed.has(ground)) && resting === 0;
  }

  /** Folds anew the lots of entries that count now, or no longer. */
  #refold_for(changed: Iterable<string>): Set<string> {
    const touched = new Set<string>();
    for (const id of changed) {
      const event = this.events.get(id);
      if (event === undefined) continue;
      add_all(touched, this.#doubt_near(event));
      for (const lot of this.#about(event)) add_all(touched, this.#refold(lot));
    }
    return touched;
  }

  /** Folds a lot anew, and the parts moved from it. */
  #refold(first: string): Set<string> {
    const touched = new Set<string>();
    const waiting = [first];
    for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
      const before = this.lots.get(id);
      this.lots.delete(id);
      touched.add(id);
      add_all(touched, this.#sharing_a_put_by(id));
      if (before !== undefined) waiting.push(...before.parts.keys());
      const origin = this.#origin(id);
      if (origin === undefined) continue;
      const lot = this.#run(origin);
      this.lots.set(id, lot);
      for (const part of lot.parts.keys()) if (!before?.parts.has(part)) waiting.push(part);
    }
    return touched;
  }

  /** A put-by stands in the lives of all its lots, with what any of them says of it. */
  #sharing_a_put_by(lot: string): string[] {
    const naming = [...(this.#naming.get(lot)?.values() ?? [])];
    return naming.filter((event) => event.kind === 'put_by').flatMap((event) => [...this.#about(event)]);
  }

  #origin(id: string): Origin | undefined {
    const birth = this.events.get(id);
    if (birth === undefined || !birth.counts) return undefined;
    if (birth.kind === 'put_away') return put_away_origin(birth, this.setting.figures);
    if (birth.kind === 'put_by') return put_by_origin(birth, this.setting.figures);
    return birth.kind === 'move' ? this.lots.get(birth.body.lot)?.parts.get(id) : undefined;
  }

  #run(origin: Origin): Lot {
    const lot = new Lot(origin);
    const own: Event[] = [];
    for (const event of this.#naming.get(lot.id)?.values() ?? []) {
      if (event.counts && event !== origin.birth && event.kind !== 'scrap') own.push(event);
    }
    for (const event of arranged(own.sort(by_key))) apply(lot, event);
    return lot;
  }
}

function put(shelf: Shelf, name: string, event: Event, forget: boolean): void {
  let events = shelf.get(name);
  if (events === undefined) shelf.set(name, (events = new Map()));
  if (forget) events.delete(event.id);
  else events.set(event.id, event);
}

function add_all(ids: Set<string>, more: Iterable<string>): Set<string> {
  for (const id of more) ids.add(id);
  return ids;
}

/** Where an entry lies, or belongs, among those of its device. */
function place_of(of_device: readonly Event[], event: Event): number {
  let low = 0;
  let high = of_device.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const other = of_device[middle];
    if (other !== undefined && by_device_no(other, event) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** One entry in its turn. A finished lot is opened by what says that there is something (F12). */
function apply(lot: Lot, event: Event): void {
  const tells_nothing =
    event.kind === 'decision' ||
    event.kind === 'chore_done' ||
    (event.kind === 'inspection' && event.body.way === 'none');
  if (!tells_nothing) lot.finished = false;
  follow_rule(lot, event);
  lot.placed.add(event.id);
  if (by_key(event, lot.last_placed) > 0) lot.last_placed = event;
  if (!lot.shown_only.has(event.id)) lot.last_entry = event;
}

function follow_rule(lot: Lot, event: Event): void {
  switch (event.kind) {
    case 'take':
      return take(lot, event);
    case 'cull':
      return cull(lot, event);
    case 'trim':
      return trim(lot, event);
    case 'move':
      return move(lot, event);
    case 'count':
      return count(lot, event);
    case 'set_aside':
      return set_aside(lot, event);
    case 'put_by':
      return put_by(lot, event);
    case 'inspection':
      return inspection(lot, event);
    case 'suspect':
      return suspect(lot, event);
    case 'decision':
      return decision(lot, event);
    case 'chore_done':
      return chore_done(lot, event);
    default:
      return;
  }
}
