/**
 * Entries to stock: the fold (docs/fold.md). Pure, whatever the order of arrival. Twin:
 * `homestead/storekeeping/fold.py`.
 *
 *     const folded = fold_all(lines, setting);   // everything held
 *     const touched = fold_on(folded, line);     // one more line, or one that changed; lots whose state may differ
 *     lot_at(folded, lot_id, today);             // one lot, as plain JSON
 *     state_at(folded, today);                   // all of it, as plain JSON
 *
 * `today` is a day of the household, `YYYY-MM-DD`: what depends on it (presumed, edible) is worked out on asking.
 */
import type { FoldState, Line, LotRecord, LotState, Setting, Went } from './state.ts';

/** All entries held and the lots made of them. Ask by the functions below; nothing in it is for writing. */
export interface Folded {
  readonly setting: Setting;
}

/** Lots that were born and stand, in order of birth. */
export function lot_ids(folded: Folded): readonly string[] {
  throw new Error(`not built yet: ${folded.setting.zone}`);
}

/** Fold everything. Edits, unknown kinds and refused lines are left out; a line given twice counts once. */
export function fold_all(lines: Iterable<Line>, setting: Setting): Folded {
  throw new Error(`not built yet: ${setting.zone}, ${[...lines].length}`);
}

/**
 * Add a line, or give a known one its `seq`, its skew or its refusal. Returns the ids of lots whose state may differ
 * now. The result equals folding all.
 */
export function fold_on(folded: Folded, line: Line): Set<string> {
  throw new Error(`not built yet: ${folded.setting.zone}, ${line.written.id}`);
}

/** The lots' records changed: nothing is folded again. */
export function describe_lots(folded: Folded, lots: Readonly<Record<string, LotRecord>>): void {
  throw new Error(`not built yet: ${folded.setting.zone}, ${Object.keys(lots).length}`);
}

/** One lot, undefined where no such lot stands. */
export function lot_at(folded: Folded, lot: string, today: string): LotState | undefined {
  throw new Error(`not built yet: ${folded.setting.zone}, ${lot}, ${today}`);
}

/** What left a lot and where it went, in order. */
export function went_of(folded: Folded, lot: string): readonly Went[] {
  throw new Error(`not built yet: ${folded.setting.zone}, ${lot}`);
}

/** All lots, tallies, chores and claims. */
export function state_at(folded: Folded, today: string): FoldState {
  throw new Error(`not built yet: ${folded.setting.zone}, ${today}`);
}

/** `when` [ms since 1970, UTC] and day of a line (F1): the same as on the server. */
export function moment_of(line: Line, zone: string): { when_ms: number; day: string } {
  throw new Error(`not built yet: ${zone}, ${line.written.id}`);
}
