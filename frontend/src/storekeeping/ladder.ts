/**
 * The use ladder: what is left to do with a piece, in order, each use with its caution and where it is from.
 * Twin: `homestead/storekeeping/ladder.py`. Both run `fixtures/vectors/ladder*.json`. Rules told in docs/ladder.md.
 */

import {
  NOT_KNOWN,
  best,
  conditions_of,
  crop_rule,
  is_listed,
  is_whole,
  part_in,
  rows_for,
  select,
  type Rows,
  type Selected,
} from './conditions.ts';
import { may_feed } from './feeding.ts';
import {
  STEPS,
  type Allowed,
  type FeedAnswer,
  type Group,
  type Law,
  type NotFor,
  type Question,
  type Rules,
  type Rung,
  type Standing,
  type Step,
  type Uses,
  type Withheld,
} from './rules.ts';

const FOOD: readonly Step[] = ['raw', 'cook', 'pot'];
const LAST: readonly Step[] = ['compost', 'bin'];
/** From this share of the looked on a finding lowers a lot's rung (fold F18; the project's own figure). */
const SHARE_THAT_COUNTS = 0.25;

/** What is asked, and what was found for it. */
interface Found {
  readonly rules: Rules;
  readonly question: Question;
  readonly conditions: readonly string[];
  readonly rows: Rows;
  readonly known: boolean;
  readonly animals: readonly FeedAnswer[];
}

/** All uses left for what is asked about, and those withheld with the reason; the strictest rule holds. */
export function uses_of(
  rules: Rules,
  question: Question,
  groups: readonly Group[] = [],
  law: Law | null = null,
): Uses {
  const conditions = conditions_of(rules, question);
  const part = question.part ?? null;
  const selected = conditions.map((condition) => select(rules, question.crop, part, condition));
  const rows: Rows = Object.fromEntries(
    selected.flatMap((one: Selected | null) => Object.entries(one?.people ?? {})),
  );
  const known =
    !conditions.includes('unsure') && !selected.includes(null) && is_listed(rules, question.crop, part);
  const animals = groups.map((group) => may_feed(rules, question, group, law));
  const found: Found = { rules, question, conditions, rows, known, animals };
  const steps = left(found);
  return {
    known,
    steps: steps.map((step) => allowed(found, step, steps)),
    withheld: withheld(found, steps),
    animals,
  };
}

/** Parts the table tells apart for this crop in this state, the stored part first. */
export function parts_of(rules: Rules, crop: string, findings: readonly string[]): readonly string[] {
  const stored = crop_rule(rules, crop).stored_part;
  const conditions = conditions_of(rules, { crop, findings });
  const parts = new Set(conditions.flatMap((c) => Object.keys(rows_for(rules, crop, c)).map(part_in)));
  return [...parts].sort((a, b) => Number(a !== stored) - Number(b !== stored));
}

/** Where a lot stands on the ladder (fold F18): best step of the stored part, lowered by standing findings. */
export function rung_of(rules: Rules, crop: string, standing: readonly Standing[]): Rung {
  let rung = STEPS.indexOf(crop_rule(rules, crop).starts_at);
  let turning = rung;
  for (const { finding, share } of standing) {
    const lowest = best_of_what_is_left(rules, crop, finding);
    turning = Math.max(turning, lowest);
    if ((share ?? 1) >= SHARE_THAT_COUNTS) rung = Math.max(rung, lowest);
  }
  return { rung: STEPS[rung] ?? 'bin', turning: STEPS[turning] ?? 'bin' };
}

/** Index of the best step of a piece with this finding; 0, no lower than it was, where nothing is known. */
function best_of_what_is_left(rules: Rules, crop: string, finding: string): number {
  const selected = finding === 'unsure' ? null : select(rules, crop, null, finding);
  return selected === null ? 0 : Math.max(...Object.values(selected.people).map(best));
}

function begins_at({ rules, question }: Found): number {
  const rule = crop_rule(rules, question.crop);
  return is_whole(question.part, rule.stored_part) ? STEPS.indexOf(rule.starts_at) : 0;
}

/** The steps that every row leaves, none above where the crop begins, food only where it is known. */
function left(found: Found): readonly Step[] {
  const rows = Object.values(found.rows);
  const named = new Set(rows.length > 0 ? rows.flatMap((row) => row.steps) : LAST);
  const common =
    rows.length > 0 ? STEPS.filter((step) => rows.every((row) => leaves(row.steps, step))) : LAST;
  const only_bin = common.length === 1 && common[0] === 'bin';
  const begin = begins_at(found);
  const steps = STEPS.filter((step, index) => {
    if (step === 'animals') return found.animals.some((answer) => answer.offered);
    if (!common.includes(step) || (!found.known && FOOD.includes(step)) || index < begin) return false;
    return step !== 'bin' || named.has('bin') || only_bin;
  });
  return steps.length > 0 ? steps : ['bin'];
}

const leaves = (steps: readonly Step[], step: Step): boolean => step === 'bin' || steps.includes(step);

function allowed(found: Found, step: Step, steps: readonly Step[]): Allowed {
  const rows = Object.entries(found.rows);
  const cautions = rows.filter(([, row]) => row.caution).map(([name]) => name);
  if (FOOD.includes(step) || !FOOD.some((food) => steps.includes(food))) {
    cautions.push(...rows.flatMap(([, row]) => (row.topic ? [`kitchen_safety:${row.topic}`] : [])));
  }
  return {
    step,
    rows: Object.keys(found.rows),
    cautions: [...new Set(cautions)],
    not_for: not_for(found, step),
  };
}

/** Those at table who must not have it at this step. */
function not_for({ rules, question, conditions }: Found, step: Step): readonly NotFor[] {
  const at_table = question.eaters ?? [];
  const part = question.part ?? '';
  return rules.eaters
    .filter(
      (rule) =>
        at_table.includes(rule.eater) &&
        rule.steps.includes(step) &&
        (rule.crops.length === 0 || rule.crops.includes(question.crop)) &&
        (rule.parts.length === 0 || part === NOT_KNOWN || rule.parts.includes(part)) &&
        (rule.conditions.length === 0 || rule.conditions.some((condition) => conditions.includes(condition))),
    )
    .map(({ eater, row }) => ({ eater, row }));
}

/** Each step that is not left, with the reason; the bin is no use to withhold. */
function withheld(found: Found, steps: readonly Step[]): readonly Withheld[] {
  const gone = STEPS.slice(0, -1).filter(
    (step) => !steps.includes(step) && (step !== 'animals' || found.animals.length > 0),
  );
  return gone.map((step) => reason(found, step));
}

function reason(found: Found, step: Step): Withheld {
  const { rules, question, rows, animals } = found;
  if (step === 'animals') {
    return { step, code: 'no_animal', rows: [...new Set(animals.flatMap((answer) => answer.rows))] };
  }
  if (STEPS.indexOf(step) < begins_at(found)) {
    const start = `ladder:${question.crop}/${crop_rule(rules, question.crop).stored_part}/sound`;
    return { step, code: 'begins_below', rows: [start] };
  }
  if (FOOD.includes(step) && found.conditions.includes('unsure')) return { step, code: 'unsure', rows: [] };
  if (FOOD.includes(step) && !found.known) return { step, code: 'not_known', rows: Object.keys(rows) };
  return { step, code: 'table', rows: Object.keys(rows).filter((name) => !rows[name]?.steps.includes(step)) };
}
