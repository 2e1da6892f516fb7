/**
 * What became of a lot, in grams, and the rows of what went where (F9, F15, F20).
 *
 * Twin: `homestead/storekeeping/tallies.py`.
 */
import { day_text } from './days.ts';
import { BUCKETS, type EventOf, type Lot, type Row, row } from './lot.ts';
import type { Step } from './shapes.ts';
import type { Tallies, Way, Went } from './state.ts';

const STEPS: ReadonlySet<string> = new Set(['raw', 'cook', 'pot', 'animals', 'compost', 'bin']);

function is_step(way: Way): way is Step {
  return STEPS.has(way);
}

export function tallies_of(lot: Lot): Tallies {
  const tallies: Tallies = {
    whole: lot.whole,
    put_away: lot.origin.grams,
    there: lot.grams,
    found: 0,
    eaten: 0,
    given: 0,
    seed: 0,
    shrink: 0,
    cured: 0,
    moved: 0,
    put_by: 0,
    unknown: 0,
    steps: {},
    unwritten: {},
    unweighed: {},
  };
  for (const { way, pieces, grams, unwritten } of lot.rows) {
    const bucket = BUCKETS[way];
    if (grams === null) {
      add(tallies.unweighed, bucket, pieces ?? 0);
      continue;
    }
    tallies[bucket] += grams;
    if (is_step(way)) add(tallies.steps, way, grams);
    if (unwritten) add(tallies.unwritten, bucket, grams);
  }
  return tallies;
}

function add<Name extends string>(sums: Partial<Record<Name, number>>, name: Name, amount: number): void {
  if (amount !== 0) sums[name] = (sums[name] ?? 0) + amount;
}

export function row_of_lot(lot: Lot, each: Row): Went {
  return told(each, lot.id, lot.origin.crop);
}

/** Scraps change no stock; the lot they name lends its crop. */
export function scrap_rows(event: EventOf<'scrap'>, lot_crop: string | null): Went[] {
  const { crop = lot_crop, lot = null, findings, went } = event.body;
  return went.map((each) => told(row(event, each.step, null, each.grams, each, findings), lot, crop));
}

function told(
  { event, way, pieces, grams, went, findings, unwritten }: Row,
  lot: string | null,
  crop: string | null,
): Went {
  return {
    entry: event.id,
    kind: event.kind,
    lot,
    crop,
    day: day_text(event.day),
    when_ms: event.when_ms,
    person: event.written.person,
    way,
    bucket: BUCKETS[way],
    pieces,
    grams,
    findings,
    part: went.part ?? null,
    cut_in: went.cut_in ?? null,
    animals: went.animals ?? null,
    accident: went.accident ?? false,
    unwritten,
  };
}
