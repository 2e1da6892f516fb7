/**
 * When an entry happened, in which order entries count and which count at all (F1 to F4).
 *
 * Twin: `homestead/storekeeping/order.py`.
 */
import { day_number, moment_ms, type Zone } from './days.ts';
import type { Entry } from './shapes.ts';
import type { Line, WrittenLine } from './state.ts';

const SKEW_NOTICED_MS = 120_000;
const SKEW_DOUBTED_MS = 3_600_000;
const DISORDER_DOUBTED_MS = 600_000;

export const NAMES_A_LOT: ReadonlySet<string> = new Set([
  'take',
  'cull',
  'trim',
  'move',
  'count',
  'set_aside',
  'inspection',
  'suspect',
  'scrap',
]);
/** Counts nothing where what it names is not here (F4). */
export const RESTS_ON_OTHERS: ReadonlySet<string> = new Set([
  ...[...NAMES_A_LOT].filter((kind) => kind !== 'scrap'),
  'decision',
  'chore_done',
]);
/** Outside the lots. */
export const PLAIN_FACTS: ReadonlySet<string> = new Set(['round', 'reading', 'lay', 'pail', 'heap']);
const KINDS: ReadonlySet<string> = new Set([
  ...NAMES_A_LOT,
  ...PLAIN_FACTS,
  'put_away',
  'put_by',
  'decision',
  'chore_done',
  'claim',
  'offer',
  'strike',
]);

/** An entry as the fold sees it. `day` is a number (`days`). */
export type Event = Entry & {
  readonly id: string;
  readonly when_ms: number;
  readonly day: number;
  readonly skew_ms: number;
  readonly written: WrittenLine;
  seq: number | null;
  counts: boolean;
  struck_by: string | null;
  clock_doubted: boolean;
};

/** F2: before (negative) or after. */
export function by_key(one: Event, other: Event): number {
  return (
    one.when_ms - other.when_ms ||
    by_text(one.written.device, other.written.device) ||
    one.written.device_no - other.written.device_no ||
    by_text(one.id, other.id)
  );
}

export function by_text(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

export function by_device_no(one: Event, other: Event): number {
  return one.written.device_no - other.written.device_no || by_text(one.id, other.id);
}

/** F1. */
export function moment(line: Line, zone: Zone): { when_ms: number; day: number } {
  const { written } = line;
  if (written.dated === 'person') {
    const day = day_number(written.happened_at.slice(0, 10));
    return { when_ms: zone.noon_of(day), day };
  }
  let when_ms = moment_ms(written.happened_at);
  const skew_ms = line.clock_skew_ms ?? 0;
  if (Math.abs(skew_ms) > SKEW_NOTICED_MS) when_ms += skew_ms;
  return { when_ms, day: zone.day_of(when_ms) };
}

/** Bodies were judged when they were written and pushed; here they are read as their kind says. */
export function event_of(line: Line, zone: Zone): Event {
  const { written } = line;
  const { when_ms, day } = moment(line, zone);
  return {
    id: written.id,
    kind: written.kind,
    body: written.body,
    when_ms,
    day,
    skew_ms: line.clock_skew_ms ?? 0,
    written,
    seq: line.seq ?? null,
    counts: true,
    struck_by: null,
    clock_doubted: false,
  } as Event;
}

/** Edits, kinds of a newer build and what lies refused in the tray are outside the fold. */
export function folds(line: Line): boolean {
  return line.standing !== 'refused' && KINDS.has(line.written.kind);
}

/** Of two lines with one id the sent one is taken, else the one written last, whatever came first. */
export function stands_before(one: Line, other: Line): boolean {
  const sent = one.seq !== undefined;
  if (sent !== (other.seq !== undefined)) return sent;
  return one.written.device_no > other.written.device_no;
}

/** The id a strike names. */
export function struck_of(strike: Event): string {
  return strike.written.strikes ?? '';
}

/**
 * F3: says of every entry whether it counts; the ids of those for which that is now otherwise.
 *
 * A strike nobody strikes counts; what it names does not, and so on along the chain. Strikes in a ring that no strike
 * from outside breaks count nothing.
 */
export function settle_strikes(strikes: readonly Event[], events: ReadonlyMap<string, Event>): Set<string> {
  const { counting, first } = counting_strikes(strikes, events);
  const changed = new Set<string>();
  const mark = (event: Event, counts: boolean, struck_by: string | null) => {
    if (event.counts === counts && event.struck_by === struck_by) return;
    event.counts = counts;
    event.struck_by = struck_by;
    changed.add(event.id);
  };
  for (const event of strikes) mark(event, counting.has(event.id), first.get(event.id) ?? null);
  for (const target of new Set(strikes.map(struck_of))) {
    const struck = events.get(target);
    if (struck !== undefined && struck.kind !== 'strike') {
      mark(struck, !first.has(target), first.get(target) ?? null);
    }
  }
  return changed;
}

function counting_strikes(strikes: readonly Event[], events: ReadonlyMap<string, Event>) {
  const open_strikes = new Map(strikes.map((event) => [event.id, 0]));
  for (const event of strikes) {
    const open = open_strikes.get(struck_of(event));
    if (open !== undefined) open_strikes.set(struck_of(event), open + 1);
  }
  const settled = new Map<string, boolean>();
  const ready = strikes
    .filter((event) => open_strikes.get(event.id) === 0)
    .map((event) => ({ event, counts: true }));
  for (let next = ready.pop(); next !== undefined; next = ready.pop()) {
    const { event, counts } = next;
    if (settled.has(event.id)) continue;
    settled.set(event.id, counts);
    const target = struck_of(event);
    const open = (open_strikes.get(target) ?? 0) - 1;
    const struck = events.get(target);
    if (struck === undefined || !open_strikes.has(target)) continue;
    open_strikes.set(target, open);
    if (counts || open === 0) ready.push({ event: struck, counts: !counts });
  }
  const counting = new Set([...settled].filter(([, counts]) => counts).map(([id]) => id));
  const first = new Map<string, string>();
  for (const event of [...strikes].sort(by_key)) {
    if (counting.has(event.id) && !first.has(struck_of(event))) first.set(struck_of(event), event.id);
  }
  return { counting, first };
}

/**
 * F4: a lot's counting entries, sorted by F2, its birth left out, in the order in which they count.
 *
 * A decision comes no earlier than directly after its suspect, a chore done after its decision. What names a suspect
 * or decision that is not here is left out.
 */
export function arranged(named: readonly Event[]): Event[] {
  const here = new Set<string>();
  const waiting = new Map<string, Event[]>();
  const order: Event[] = [];
  for (const event of named) {
    const ground = ground_of(event);
    if (ground !== null && !here.has(ground)) {
      const others = waiting.get(ground);
      if (others === undefined) waiting.set(ground, [event]);
      else others.push(event);
      continue;
    }
    if (event.kind !== 'suspect' && event.kind !== 'decision') {
      order.push(event);
      continue;
    }
    const arrived: Event[] = [event];
    for (let placed = arrived.pop(); placed !== undefined; placed = arrived.pop()) {
      order.push(placed);
      if (placed.kind === 'suspect' || placed.kind === 'decision') {
        here.add(placed.id);
        arrived.push(...(waiting.get(placed.id) ?? []).reverse());
        waiting.delete(placed.id);
      }
    }
  }
  return order;
}

/** The suspect or decision an entry rests on. */
export function ground_of(event: Event): string | null {
  if (event.kind === 'decision') return event.body.suspect;
  if (event.kind === 'chore_done') return event.body.chore;
  return null;
}

/**
 * F2: flags "clock?" on the entries of one device, sorted by `device_no`; the ids whose flag changed.
 *
 * Of two neighbours that stand over 10 minutes against their numbers nobody knows which is wrong: both.
 * at: only the entry there is new or changed, so only it and its neighbours are looked at.
 */
export function doubt_clocks(of_device: readonly Event[], at?: number): Set<string> {
  const telling = (at === undefined ? of_device : near(of_device, at, 2)).filter(tells);
  const doubted = new Set(
    telling.filter((event) => Math.abs(event.skew_ms) > SKEW_DOUBTED_MS).map((event) => event.id),
  );
  telling.forEach((event, i) => {
    const before = telling[i - 1];
    if (before !== undefined && before.when_ms - event.when_ms > DISORDER_DOUBTED_MS) {
      doubted.add(before.id).add(event.id);
    }
  });
  const changed = new Set<string>();
  for (const event of at === undefined ? of_device : near(of_device, at, 1)) {
    if (doubted.has(event.id) === event.clock_doubted) continue;
    event.clock_doubted = !event.clock_doubted;
    changed.add(event.id);
  }
  return changed;
}

function tells(event: Event): boolean {
  return event.written.dated === 'clock' && event.counts;
}

/** The entry at a place and so many that tell the time before and after it. */
function near(of_device: readonly Event[], at: number, reach: number): Event[] {
  const found: Event[] = [];
  let before = 0;
  let after = 0;
  for (let i = at - 1; i >= 0 && before < reach; i--) {
    const event = of_device[i];
    if (event !== undefined && tells(event)) before = found.unshift(event);
  }
  const here = of_device[at];
  if (here !== undefined) found.push(here);
  for (let i = at + 1; i < of_device.length && after < reach; i++) {
    const event = of_device[i];
    if (event !== undefined && tells(event)) after += found.push(event) > 0 ? 1 : 0;
  }
  return found;
}
