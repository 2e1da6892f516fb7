/** What may be given away in this household, and the note that goes with it. Reactive: it reads `house` and the words. */
import type { KitchenReference } from '../../reference';
import { figures, words } from '../../words';
import { kitchen_words } from '../../words/kitchen';
import { rounds_words } from '../../words/rounds';
import { findings_list, mayNow, question_of_lot } from '../shared/asking';
import { house } from '../shared/house.svelte';
import { lot_name } from '../shared/lot_words';
import { table_crop } from '../shared/names';
import { offer } from '../shared/offer';
import { texts } from '../shared/records';
import type { LotState } from '../../storekeeping/state';
import { may_give, type MayGive } from './giving';
import { put_by_of } from './put_by_of';
import { clock_here } from './ticking';

/** Nobody knows who sits at another table: it is asked as for everyone. */
const ANYBODY = ['infant', 'small_child', 'pregnant', 'old', 'ill', 'no_nuts'];

/** Of the lot and what it was moved from, back to the last look at every piece. */
function trimmed_for(lot: LotState): readonly string[] {
  const found: string[] = [];
  for (const past of [...lot.history].reverse()) {
    const body = past.counts ? house.lines.get(past.id)?.written.body : undefined;
    if (past.kind === 'inspection' && body?.['way'] === 'all') return found;
    if (past.kind === 'trim') found.push(...texts(body?.['findings']));
  }
  const parent = lot.parent === null ? undefined : house.lot(lot.parent);
  return parent ? [...found, ...trimmed_for(parent)] : found;
}

const question_of = (lot: LotState, findings: readonly string[]) => ({
  ...question_of_lot(lot, { findings }),
  eaters: ANYBODY,
});

export const may_give_lot = (
  kitchen: KitchenReference,
  lot: LotState,
  findings: readonly string[],
): MayGive =>
  may_give(house.reference.rules, {
    lot,
    question: question_of(lot, findings),
    trimmed_for: trimmed_for(lot),
    jar_of: lot.crop === 'jar' ? (put_by_of(lot.id)?.crops ?? []) : null,
    jarred: kitchen.jarred,
    today: house.today,
  });

export interface NoteOf {
  readonly lot: LotState;
  readonly amount: string;
  readonly findings: readonly string[];
  readonly trimmed: boolean;
}

/** The ladder's "Raw." says no more than the step does. */
const says_more = (sentence: string): boolean =>
  sentence !== '' && !Object.values(words().steps).some((step) => sentence === `${step}.`);

function uses_of_it(lot: LotState, findings: readonly string[]): readonly string[] {
  const offered = offer(
    { question: question_of(lot, findings), groups: [], law: null, may: mayNow() },
    house.reference,
    { ...rounds_words().offer, names: findings_list, list: (list) => figures().list(list) },
  );
  const food = offered.rows.filter((row) => row.offered && (row.step === 'raw' || row.step === 'cook'));
  const good_for = food.map(({ step }) => rounds_words().small(words().steps[step])).join(', ');
  // What holds for both is told once.
  const told = food.flatMap(({ soft }) => (soft ?? '').split(/(?<=[.!?)])\s+/));
  return [kitchen_words().give.note.good_for(good_for), ...new Set(told.filter(says_more))];
}

/** How it wants to lie, and the last day it is said to keep. */
function how_to_keep(kitchen: KitchenReference, lot: LotState): readonly string[] {
  const w = kitchen_words().give.note;
  const told = kitchen.keeping[table_crop(lot.crop)];
  const clock = clock_here(kitchen, lot);
  const lines: string[] = [];
  if (told) {
    const [coldest, high, dry, damp] = told;
    // No house keeps an apple a degree below freezing without harm.
    const low = coldest === null || lot.crop === 'frozen' ? coldest : Math.max(0, coldest);
    const { temp } = figures();
    const warmth = low === null || low === high ? temp(high) : w.range(temp(low), temp(high));
    const air = dry === damp ? `${damp} %` : `${dry}–${damp} %`;
    lines.push(dry === null || damp === null ? w.keep(warmth) : w.keep_damp(warmth, air));
  }
  if (lot.crop === 'frozen') lines.push(w.stays_frozen);
  if (clock) lines.push(w.best_by(figures().full_day(clock.ends)));
  return lines;
}

/** The note, line by line: what, when, trimmed or not, what for, how to keep it, from whom. */
export function note_lines(
  kitchen: KitchenReference,
  { lot, amount, findings, trimmed }: NoteOf,
): readonly string[] {
  const w = kitchen_words().give.note;
  const seen = findings.filter((finding) => finding !== 'sound');
  const of = put_by_of(lot.id);
  const day = figures().full_day(lot.put_away_day);
  return [
    w.what(lot_name(lot), amount),
    lot.crop === 'egg' ? w.laid(day) : of ? w.put_by(day) : w.picked(day),
    trimmed ? w.trimmed : w.not_trimmed,
    ...(seen.length > 0 ? [w.seen(findings_list(seen))] : []),
    ...uses_of_it(lot, findings),
    ...how_to_keep(kitchen, lot),
    w.look_at_it,
    w.from(house.name, figures().full_day(house.today)),
  ];
}

/** Rows behind the note's figures. */
export const rows_of_note = (kitchen: KitchenReference, lot: LotState): readonly string[] => [
  ...[kitchen.keeping[table_crop(lot.crop)]?.[4] ?? []].flat(),
  ...(clock_here(kitchen, lot)?.rows ?? []),
];
