/** The pot: clean trimmings kept frozen until there is enough for stock. Worked out from what went to the pot. Pure. */
import type { Body, Id } from '../../ledger/index.ts';
import { day_after } from './days.ts';
import type { Rules } from '../../storekeeping/rules.ts';
import type { Went } from '../../storekeeping/state.ts';

export interface Saved {
  readonly entry: Id;
  readonly day: string;
  readonly person: Id;
  readonly crop: string | null;
  readonly part: string | null;
  /** Null: it went in without being weighed. */
  readonly grams: number | null;
}

export interface Pot {
  /** What is in it, the newest first. */
  readonly saved: readonly Saved[];
  readonly grams: number;
  readonly oldest: string | undefined;
  /** The day it wants to be used by. */
  readonly use_by: string | undefined;
}

type Row = Pick<
  Went,
  'entry' | 'kind' | 'day' | 'person' | 'crop' | 'part' | 'grams' | 'way' | 'findings' | 'accident'
>;

/** What was boiled out for stock: the line that empties the pot. */
const is_spent = ({ kind, findings }: Row): boolean => kind === 'scrap' && findings.includes('spent');

/** `went` in order (F2). Stock takes the oldest first; what was never weighed goes with what lay beside it. */
export function pot_of(went: readonly Row[], keeps_days: number): Pot {
  let saved: Saved[] = [];
  for (const row of went) {
    if (is_spent(row)) saved = taken_out(saved, row.grams ?? Infinity);
    else if (row.way === 'pot' && !row.accident) {
      const { entry, day, person, crop, part, grams } = row;
      saved.push({ entry, day, person, crop, part, grams });
    }
  }
  const oldest = saved.map(({ day }) => day).sort()[0];
  return {
    saved: saved.reverse(),
    grams: saved.reduce((sum, { grams }) => sum + (grams ?? 0), 0),
    oldest,
    use_by: oldest === undefined ? undefined : day_after(oldest, keeps_days),
  };
}

function taken_out(saved: readonly Saved[], grams: number): Saved[] {
  let left = grams;
  return saved.flatMap((one) => {
    if (left <= 0) return [one];
    const has = one.grams ?? 0;
    const taken = Math.min(left, has);
    left -= taken;
    return has > taken ? [{ ...one, grams: has - taken }] : [];
  });
}

/** Grams a pot of stock wants: the dish is for four. */
export const pot_wants = (kg_for_four: number, at_table: number): number =>
  Math.round((kg_for_four * 1000 * at_table) / 4);

/** Parts of a crop that the pot takes when they are clean and sound, the trimmings before the piece itself. */
export function parts_for_pot(rules: Rules, crop: string): readonly string[] {
  const stored = rules.crops[crop]?.stored_part;
  const rows = Object.entries(rules.ladder[crop]?.['sound'] ?? {});
  return rows
    .filter(([, row]) => row.steps.includes('pot'))
    .map(([part]) => part)
    .sort((a, b) => Number(a === stored) - Number(b === stored));
}

export const added_body = (crop: string, part: string, grams: number): Body => ({
  crop,
  findings: ['sound'],
  went: [{ step: 'pot', grams, part, cut_in: 'kitchen' }],
});

/** Stock was made: what is left of it, boiled out, goes to the heap or the bin, never to animals. */
export const spent_body = (grams: number, to: 'compost' | 'bin'): Body => ({
  findings: ['spent'],
  went: [{ step: to, grams: Math.max(1, Math.round(grams)), cut_in: 'kitchen' }],
});
