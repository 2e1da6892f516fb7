/**
 * What may go to which animal: the feed rules, the law and fold F20 in one answer. Twin:
 * `homestead/storekeeping/feeding.py`. The server's check at push and the phone's forms ask the same functions, so
 * that what one offers the other never refuses.
 */

import {
  ANY,
  NOT_KNOWN,
  conditions_of,
  crop_rule,
  is_spoilt,
  is_whole,
  select,
  type Rows,
} from './conditions.ts';
import { from_a_kitchen, kept_in, law_refuses } from './law.ts';
import type {
  FeedAnswer,
  FeedCode,
  FeedRule,
  Group,
  Law,
  Question,
  Refusal,
  Row,
  Rules,
  Verdict,
  Went,
} from './rules.ts';

/** Parts of a feed rule that mean every part. */
const EVERY_PART = ['any', 'all', 'all parts'];

/** A feed rule that speaks of the piece in question. */
interface Borne {
  readonly row: Row;
  readonly verdict: Verdict;
  readonly of_the_crop: boolean;
}

/** What is asked, with what every step of the answer needs of it. */
interface Asked {
  readonly rules: Rules;
  readonly question: Question;
  readonly group: Group;
  readonly law: Law | null;
  readonly conditions: readonly string[];
}

/**
 * May this group have it? The first of these that says no: fold F20, the tables, the law; then what is to be
 * avoided, then the limits that count.
 */
export function may_feed(rules: Rules, question: Question, group: Group, law: Law | null = null): FeedAnswer {
  const asked = { rules, question, group, law, conditions: conditions_of(rules, question) };
  return (
    barred_by_state(asked) ??
    barred_by_tables(asked) ??
    barred_by_law(asked) ??
    better_not(asked) ??
    offered(asked)
  );
}

/** What a `went` came from: the crop (null: mixed scraps), what was found, whether the piece left its lot uncut. */
export interface Leaving {
  readonly crop: string | null;
  readonly findings: readonly string[];
  readonly whole: boolean;
}

/**
 * Why this `went` must not be written, or null. `whole` (take, cull, out of a round, decision): an absent `cut_in`
 * means it never saw a kitchen and an absent `part` the whole piece; else both are not known. `groups` by id. An
 * accident is never refused here: it tells what happened.
 */
export function check_went(
  rules: Rules,
  went: Went,
  leaving: Leaving,
  groups: Readonly<Record<string, Group>>,
  law: Law | null = null,
): Refusal | null {
  if (went.step !== 'animals' || went.accident) return null;
  const question = question_of(went, leaving);
  for (const group of fed(rules, went, groups)) {
    const answer = may_feed(rules, question, group, law);
    if (answer.refused && answer.code) {
      return { code: answer.code, kind: group.kind, crop: question.crop, rows: answer.rows };
    }
  }
  return null;
}

function question_of(went: Went, { crop, findings, whole }: Leaving): Question {
  const mixed_or_whole = whole || crop === null || crop === ANY;
  return {
    crop: crop ?? ANY,
    part: went.part ?? (mixed_or_whole ? null : NOT_KNOWN),
    findings,
    cut_in: went.cut_in ?? (whole ? 'store' : null),
  };
}

/** Whom it went to: the group named, else each group kept, else every kind the tables know. */
function fed(rules: Rules, went: Went, groups: Readonly<Record<string, Group>>): readonly Group[] {
  if (went.animals) return [groups[went.animals] ?? { kind: NOT_KNOWN }];
  const kept = Object.values(groups);
  return kept.length > 0 ? kept : rules.animals.map((kind) => ({ kind }));
}

const once = (rows: readonly Row[]): readonly Row[] => [...new Set(rows)];

function refused(
  group: Group,
  verdict: Verdict,
  code: FeedCode,
  rows: readonly Row[],
  at_push = true,
): FeedAnswer {
  return { kind: group.kind, verdict, offered: false, refused: at_push, code, rows: once(rows), limits: [] };
}

/** Fold F20, and the states that no animal's feed is in. */
function barred_by_state(asked: Asked): FeedAnswer | null {
  const { rules, question, group, law, conditions } = asked;
  if (question.findings.length === 0) return refused(group, 'never', 'findings_needed', []);
  if (conditions.includes('unsure')) return refused(group, 'never', 'unsure', []);
  const spoilt = conditions.filter((condition) => is_spoilt(rules, condition));
  if (spoilt.length > 0) {
    const words = [...new Set(spoilt.map((condition) => feed_word(rules, condition)))].sort();
    const rows = words.map((word) => `feed_safety:${group.kind}/${ANY}/any/${word}`);
    return refused(group, 'never', 'rot_or_mould', [...rows, ...own_nevers(asked)]);
  }
  for (const state of ['spent', 'treated'] as const) {
    if (conditions.includes(state)) return refused(group, 'never', state, [`ladder:${ANY}/piece/${state}`]);
  }
  if (group.withheld) return refused(group, 'never', 'withheld', ['kitchen_safety:treated_birds']);
  if (kept_in(law, group)) return refused(group, 'never', 'housing_order', ['kitchen_safety:housing_order']);
  return null;
}

function feed_word(rules: Rules, condition: string): string {
  return rules.findings[condition]?.feeds_as ?? 'sound';
}

/** All ladder rows that hold for animals; null when one state is not known. */
function ladder_rows({ rules, question, conditions }: Asked): Rows | null {
  let rows: Rows = {};
  for (const condition of conditions) {
    const selected = select(rules, question.crop, question.part ?? null, condition);
    if (selected === null) return null;
    rows = { ...rows, ...selected.animals };
  }
  return rows;
}

/** Feed rules for this kind of animal that speak of crop, part and state. */
function borne_by(asked: Asked, rows: Rows): readonly Borne[] {
  const { rules, question, group, conditions } = asked;
  const crop = crop_rule(rules, question.crop).feeds_as;
  const words = new Set(['any', ...conditions.map((condition) => feed_word(rules, condition))]);
  if (!words.has('cooked')) words.add('sound');
  const drawn_from = new Set(Object.values(rows).flatMap((row) => row.feed ?? []));
  const found: Borne[] = [];
  for (const table of new Set([crop ?? ANY, ANY])) {
    for (const rule of rules.feed[table] ?? []) {
      const verdict = rule.verdicts[group.kind];
      if (!verdict) continue;
      const name = `${rule.crop}/${rule.part}/${rule.condition}`;
      const speaks = words.has(rule.condition) && same_part(rules, question, rule, verdict);
      if (drawn_from.has(name) || speaks) {
        found.push({ row: `feed_safety:${group.kind}/${name}`, verdict, of_the_crop: rule.crop === crop });
      }
    }
  }
  return found;
}

/** A rule of the whole piece holds for a part of it only where it is a never. */
function same_part(rules: Rules, question: Question, rule: FeedRule, verdict: Verdict): boolean {
  const part = question.part ?? null;
  if (rule.parts.some((word) => EVERY_PART.includes(word))) return true;
  if (rule.crop === ANY && question.crop !== ANY) return false;
  const stored = crop_rule(rules, question.crop).stored_part;
  if (part === NOT_KNOWN || (part !== null && rule.parts.includes(part))) return true;
  const whole = is_whole(part, stored);
  return (
    (whole && rule.parts.includes(stored)) || (rule.parts.includes('whole') && (whole || verdict === 'never'))
  );
}

/** What the crop's own rules say never to, beside the rule for any produce. */
const own_nevers = (asked: Asked): readonly Row[] =>
  borne_by(asked, ladder_rows(asked) ?? {})
    .filter((rule) => rule.of_the_crop && rule.verdict === 'never')
    .map((rule) => rule.row);

const named_in = (
  rows: Rows,
  list: 'never' | 'avoid' | 'offered' | 'limited',
  kind: string,
): readonly Row[] => Object.keys(rows).filter((name) => (rows[name]?.[list] ?? []).includes(kind));

function barred_by_tables(asked: Asked): FeedAnswer | null {
  const { group } = asked;
  const rows = ladder_rows(asked);
  const borne = borne_by(asked, rows ?? {});
  const never = borne.filter((rule) => rule.verdict === 'never').map((rule) => rule.row);
  never.push(...named_in(rows ?? {}, 'never', group.kind));
  if (never.length > 0) return refused(group, 'never', 'never', never);
  if (rows === null || !borne.some((rule) => rule.of_the_crop)) {
    return refused(group, 'not_known', 'not_known', Object.keys(rows ?? {}));
  }
  return null;
}

function barred_by_law({ rules, question, group, law, conditions }: Asked): FeedAnswer | null {
  const kind = crop_rule(rules, question.crop).kind;
  if (!from_a_kitchen(question, kind, conditions)) return null;
  const refuses = law_refuses(rules, law, group.kind, kind === 'animal');
  return refuses ? refused(group, 'never', refuses.code, refuses.rows) : null;
}

/** What the tables avoid or the ladder does not offer: no choice on a form, and no refusal at push. */
function better_not(asked: Asked): FeedAnswer | null {
  const { group } = asked;
  const rows = ladder_rows(asked) ?? {};
  const avoid = borne_by(asked, rows)
    .filter((rule) => rule.verdict === 'avoid')
    .map((rule) => rule.row);
  const offers = new Set(named_in(rows, 'offered', group.kind));
  avoid.push(
    ...named_in(rows, 'avoid', group.kind),
    ...Object.keys(rows).filter((name) => !offers.has(name)),
  );
  return avoid.length > 0 ? refused(group, 'avoid', 'avoid', avoid, false) : null;
}

function offered(asked: Asked): FeedAnswer {
  const { group } = asked;
  const rows = ladder_rows(asked) ?? {};
  const borne = borne_by(asked, rows);
  const limits = borne.filter((rule) => rule.verdict === 'limited').map((rule) => rule.row);
  limits.push(...named_in(rows, 'limited', group.kind));
  return {
    kind: group.kind,
    verdict: limits.length > 0 ? 'limited' : 'good',
    offered: true,
    refused: false,
    rows: once([...Object.keys(rows), ...borne.map((rule) => rule.row)]),
    limits: once(limits),
  };
}
