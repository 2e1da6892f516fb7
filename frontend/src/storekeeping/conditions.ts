/**
 * What state a piece is in, and which rows of the ladder speak of it.
 * Twin: `homestead/storekeeping/conditions.py`. Rules told in docs/ladder.md.
 */

import { STEPS, type CropRule, type LadderRow, type Question, type Row, type Rules } from './rules.ts';

export const NOT_KNOWN = 'not_known';
export const ANY = 'any_produce';
export const SOUND_PART = 'sound part';
/** Kinds of crop that the fall-back rows, written for fresh produce, may call food. */
const PRODUCE = new Set([
  'tuber',
  'root',
  'bulb',
  'stalk',
  'head',
  'bud',
  'leaf',
  'stem',
  'fruit',
  'vegetable',
  'own',
]);
const OWN_CROP: CropRule = { stored_part: 'piece', starts_at: 'raw', kind: 'own' };

/** Ladder rows by name. */
export type Rows = Readonly<Record<Row, LadderRow>>;

/** Rows for one condition: those that tell people, and those that hold for animals. */
export interface Selected {
  readonly people: Rows;
  readonly animals: Rows;
}

/** The crop's entry; a household's own crop has no rows and is taken for fresh produce. */
export function crop_rule(rules: Rules, crop: string): CropRule {
  return rules.crops[crop] ?? OWN_CROP;
}

/** Findings and states, each once: `unsure` where nothing is said, `old` by age, `sound` only alone. */
export function conditions_of(rules: Rules, question: Question): readonly string[] {
  const found = new Set(question.findings.length > 0 ? question.findings : ['unsure']);
  const old_after = crop_rule(rules, question.crop).old_after_days;
  const age = question.age_days ?? null;
  if (age !== null && old_after !== undefined && age > old_after) found.add('old');
  const worse = [...found].filter((finding) => finding !== 'sound');
  return worse.length > 0 ? worse : ['sound'];
}

/** Rot and mould of any kind: to no animal, whatever else is written. */
export function is_spoilt(rules: Rules, condition: string): boolean {
  return rules.findings[condition]?.kind === 'rot';
}

/**
 * Rows by part for a condition: the crop's own, else by the broader word, else the fall-back. Empty: nobody has
 * written what this is good for.
 */
export function rows_for(rules: Rules, crop: string, condition: string): Rows {
  const broader = rules.findings[condition]?.broader;
  const words = broader ? [condition, broader] : [condition];
  for (const word of words) {
    const rows = rules.ladder[crop]?.[word];
    if (rows) return named(crop, word, rows);
  }
  if (condition === 'sound' || crop === ANY) return {};
  for (const word of words) {
    const rows = rules.ladder[ANY]?.[word];
    if (rows) return as_fall_back(rules, crop, named(ANY, word, rows));
  }
  return {};
}

function named(crop: string, condition: string, rows: Rows): Rows {
  return Object.fromEntries(
    Object.entries(rows).map(([part, row]) => [`ladder:${crop}/${part}/${condition}`, row]),
  );
}

/** The fall-back tells of fresh produce; of eggs, jars, nuts and seeds it may only say what is thrown out. */
function as_fall_back(rules: Rules, crop: string, rows: Rows): Rows {
  if (PRODUCE.has(crop_rule(rules, crop).kind)) return rows;
  const thrown_out = ([, row]: [Row, LadderRow]): boolean => best(row) >= STEPS.indexOf('compost');
  return Object.fromEntries(Object.entries(rows).filter(thrown_out));
}

/** Index of the best step a row leaves. */
export function best(row: LadderRow): number {
  return STEPS.indexOf(row.steps[0] ?? 'bin');
}

/** The part that a ladder row's name speaks of. */
export function part_in(row: Row): string {
  return row.split('/')[1] ?? '';
}

/** The piece as stored, or what is left of it once the bad is cut away. */
export function is_whole(part: string | null | undefined, stored_part: string): boolean {
  return part === null || part === undefined || part === stored_part || part === SOUND_PART;
}

/**
 * The rows that hold for a part, null when nothing is known. A whole piece is judged for people by what remains of
 * it, for animals by all that was found on it. A part that is not known, or has no row of its own in this state, is judged by all
 * rows, and by its own sound row.
 */
export function select(rules: Rules, crop: string, part: string | null, condition: string): Selected | null {
  const rows = rows_for(rules, crop, condition);
  const names = Object.keys(rows);
  if (names.length === 0) return null;
  const only = (row: Row): Rows => Object.fromEntries(Object.entries(rows).filter(([name]) => name === row));
  const of_part = (wanted: string): Row | undefined => names.find((name) => part_in(name) === wanted);
  const own = part === null ? undefined : of_part(part);
  if (own !== undefined) return { people: only(own), animals: only(own) };
  const stored = crop_rule(rules, crop).stored_part;
  if (part === null || part === stored) {
    const kept = of_part(stored) ?? of_part(SOUND_PART);
    const remains = kept === undefined ? rows : only(kept);
    return { people: remains, animals: is_state(rules, condition) ? remains : rows };
  }
  const sound = Object.entries(named(crop, 'sound', rules.ladder[crop]?.['sound'] ?? {}));
  const joined = { ...rows, ...Object.fromEntries(sound.filter(([name]) => part_in(name) === part)) };
  return { people: joined, animals: joined };
}

/** Sound, old, cooked: said of all of it, so that its other parts are another matter. */
function is_state(rules: Rules, condition: string): boolean {
  return rules.findings[condition]?.kind === 'state';
}

/** Does the ladder know this part of the crop at all? */
export function is_listed(rules: Rules, crop: string, part: string | null): boolean {
  if (part === null || part === NOT_KNOWN || part === SOUND_PART || part === 'bad part') return true;
  const states = Object.values(rules.ladder[crop] ?? {});
  return states.some((parts) => part in parts) || part === crop_rule(rules, crop).stored_part;
}
