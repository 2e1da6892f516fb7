/**
 * Entries to stock: the fold (docs/fold.md). Pure, whatever the order of arrival. Twin:
 * `homestead/storekeeping/fold.py`.
 *
 *     const folded = fold_all(lines, setting);   // everything held
 *     const touched = fold_on(folded, line);     // one line more, or changed; lots whose state may differ
 *     lot_at(folded, lot_id, today);             // one lot, as plain JSON
 *     state_at(folded, today);                   // all of it, as plain JSON
 *
 * `today` is a day of the household, `YYYY-MM-DD`: what hangs on it (presumed, edible) is worked out on asking.
 */
import { chores_done, open_chores, taken } from './chores.ts';
import { day_number, day_text, zone_named } from './days.ts';
import { Folded } from './folded.ts';
import type { EventOf, Lot } from './lot.ts';
import {
  by_key,
  by_text,
  type Event,
  event_of,
  folds,
  moment,
  RESTS_ON_OTHERS,
  stands_before,
} from './order.ts';
import { described_as, lot_state, past_entry } from './showing.ts';
import type {
  ChoreDone,
  Claim,
  Offer,
  Fact,
  FoldState,
  Line,
  LotRecord,
  LotState,
  OpenChore,
  PastEntry,
  Setting,
  Went,
} from './state.ts';
import { row_of_lot, scrap_rows } from './tallies.ts';

export type { Folded } from './folded.ts';

/** Fold everything. Edits, unknown kinds, refused lines are left out; a line given twice counts once. */
export function fold_all(lines: Iterable<Line>, setting: Setting): Folded {
  const taken = new Map<string, Line>();
  for (const line of lines) {
    if (!folds(line)) continue;
    const other = taken.get(line.written.id);
    if (other === undefined || stands_before(line, other)) taken.set(line.written.id, line);
  }
  const folded = new Folded(setting);
  folded.fill(Array.from(taken.values(), (line) => event_of(line, folded.zone)));
  return folded;
}

/**
 * Add a line, or give a known one its `seq`, its skew or its refusal. Returns the ids of lots whose state may differ
 * now. The result equals folding all.
 */
export function fold_on(folded: Folded, line: Line): Set<string> {
  const known = folded.events.get(line.written.id);
  if (known === undefined) return folds(line) ? folded.add(event_of(line, folded.zone)) : new Set();
  if (known.seq !== null || line.written.device_no < known.written.device_no) return new Set();
  if (!folds(line)) return folded.remove(known);
  const event = event_of(line, folded.zone);
  if (by_key(event, known) === 0 && JSON.stringify(event.body) === JSON.stringify(known.body)) {
    known.seq = event.seq;
    return new Set();
  }
  const touched = folded.remove(known);
  for (const lot of folded.add(event)) touched.add(lot);
  return touched;
}

/** The lots' records changed: nothing is folded again. */
export function describe_lots(folded: Folded, lots: Readonly<Record<string, LotRecord>>): void {
  folded.setting = { ...folded.setting, lots };
}

/** Lots that were born and stand, in order of birth. */
export function lot_ids(folded: Folded): readonly string[] {
  return lots_by_birth(folded).map((lot) => lot.id);
}

function lots_by_birth(folded: Folded): Lot[] {
  return [...folded.lots.values()].sort((one, other) => by_key(one.origin.birth, other.origin.birth));
}

/** One lot, undefined where no such lot stands. */
export function lot_at(folded: Folded, lot: string, today: string): LotState | undefined {
  const stock = folded.lots.get(lot);
  if (stock === undefined) return undefined;
  return show(
    folded,
    stock,
    folded.naming(lot).map((event) => past(folded, event)),
    today,
  );
}

/** `lot_at` with no history and no photos, in a fraction of the time. */
export function lot_without_past(folded: Folded, lot: string, today: string): LotState | undefined {
  const stock = folded.lots.get(lot);
  return stock && show(folded, stock, [], today);
}

function show(folded: Folded, lot: Lot, its_past: readonly PastEntry[], today: string): LotState {
  const described = described_as(lot, folded.lots, folded.setting.lots ?? {});
  return lot_state(lot, folded.setting, described, its_past, day_number(today));
}

/** What left a lot and where it went, in order. */
export function went_of(folded: Folded, lot: string): Went[] {
  const stock = folded.lots.get(lot);
  return stock === undefined ? [] : stock.rows.map((row) => row_of_lot(stock, row));
}

/** What left all lots, and scraps no lot's entry told of, in order (F2). */
export function went_of_all(folded: Folded): Went[] {
  const rows: { readonly event: Event; readonly told: Went }[] = [];
  for (const lot of folded.lots.values()) {
    for (const row of lot.rows) rows.push({ event: row.event, told: row_of_lot(lot, row) });
  }
  for (const event of folded.counting('scrap')) {
    const lot = folded.lots.get(event.body.lot ?? '');
    for (const told of scrap_rows(event, lot?.origin.crop ?? null)) rows.push({ event, told });
  }
  rows.sort(
    (one, other) => by_key(one.event, other.event) || by_text(one.told.lot ?? '', other.told.lot ?? ''),
  );
  return rows.map((row) => row.told);
}

/** Decisions to be carried out, by lot in order of birth. */
export function open_chores_of(folded: Folded): OpenChore[] {
  return lots_by_birth(folded).flatMap(open_chores);
}

/** Of standing chores, of sheets, and of decisions where they count in their lot. */
export function chores_done_of(folded: Folded): Record<string, ChoreDone> {
  const here = folded
    .counting('chore_done')
    .filter((event) => is_of_no_decision(event) || folded.placed_in(event).length > 0);
  const shown_only = here.filter((event) => folded.shown_only(event)).map((event) => event.id);
  return chores_done(here, new Set(shown_only));
}

function is_of_no_decision(event: Event): event is EventOf<'chore_done'> {
  return event.kind === 'chore_done' && event.body.chore.includes('/');
}

/** Who took which chore on, by its key. */
export function claims_of(folded: Folded): Record<string, Claim> {
  return taken_in(folded).claims;
}

/** Which chores are free to be taken, by their key. */
export function offers_of(folded: Folded): Record<string, Offer> {
  return taken_in(folded).offers;
}

const taken_in = (folded: Folded) => taken([...folded.counting('claim'), ...folded.counting('offer')]);

/** Rounds, readings, eggs, looks into a pail and work on a heap, by F2. */
export function facts_of(folded: Folded): Fact[] {
  const kinds = ['round', 'reading', 'lay', 'pail', 'heap'] as const;
  const facts = kinds.flatMap((kind): Event[] => folded.counting(kind));
  return facts.sort(by_key).map((event) => ({
    id: event.id,
    kind: event.kind,
    person: event.written.person,
    when_ms: event.when_ms,
    day: day_text(event.day),
    body: event.body,
    flags: event.clock_doubted ? ['clock'] : [],
  }));
}

/** All lots, tallies, chores and claims. */
export function state_at(folded: Folded, today: string): FoldState {
  const done = chores_done_of(folded);
  const all_past: Record<string, PastEntry> = {};
  for (const event of folded.events.values()) all_past[event.id] = past(folded, event, done);
  const lots: Record<string, LotState> = {};
  for (const lot of lots_by_birth(folded)) {
    const its_past = folded.naming(lot.id).map((event) => all_past[event.id] ?? past(folded, event, done));
    lots[lot.id] = show(folded, lot, its_past, today);
  }
  const went = went_of_all(folded);
  return {
    lots,
    went,
    accidents: went.filter((row) => row.accident),
    chores: open_chores_of(folded),
    chores_done: done,
    claims: claims_of(folded),
    offers: offers_of(folded),
    facts: facts_of(folded),
    past: all_past,
  };
}

/** done: chores done, to tell which one of a standing chore is only shown. */
function past(folded: Folded, event: Event, done: Readonly<Record<string, ChoreDone>> = {}): PastEntry {
  const flags = folded.flags(event);
  let { counts } = event;
  if (counts && is_of_no_decision(event)) {
    counts = done[event.body.chore]?.entry === event.id;
    if (!counts) flags.push('second');
  } else if (counts && RESTS_ON_OTHERS.has(event.kind)) {
    counts = folded.placed_in(event).length > 0 && !folded.shown_only(event);
  }
  return past_entry(event, counts, flags);
}

/** `when` [ms since 1970, UTC] and day of a line (F1): the same as on the server. */
export function moment_of(line: Line, zone: string): { when_ms: number; day: string } {
  const { when_ms, day } = moment(line, zone_named(zone));
  return { when_ms, day: day_text(day) };
}
