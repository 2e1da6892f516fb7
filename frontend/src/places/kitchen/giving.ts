/**
 * What may be given away while it is good: nothing doubtful, nothing that rot or mould was cut from, no jar low in acid or of
 * unknown content, and only what the ladder leaves to be eaten. Stricter than at one's own table. Pure.
 */
import type { Body } from '../../ledger/index.ts';
import { is_spoilt } from '../../storekeeping/conditions.ts';
import { uses_of } from '../../storekeeping/ladder.ts';
import type { Question, Row, Rules } from '../../storekeeping/rules.ts';
import type { AmountBody } from '../../storekeeping/shapes.ts';
import type { LotState } from '../../storekeeping/state.ts';

export type GiveCode = 'doubtful' | 'spoilt' | 'low_acid' | 'not_told' | 'past' | 'seed' | 'not_food';

export interface MayGive {
  readonly allowed: boolean;
  readonly code?: GiveCode;
  readonly rows: readonly Row[];
}

export interface Giving {
  readonly lot: Pick<LotState, 'standing' | 'suspects' | 'keeps_until' | 'seed'>;
  /** As the household asks the ladder, with the pieces' findings; the table's crop. */
  readonly question: Question;
  /** Findings of trims since the last look: those pieces lie among the others. */
  readonly trimmed_for: readonly string[];
  /** Crops of the tables in a jar; null: it is no jar. Empty: nobody told. */
  readonly jar_of: readonly string[] | null;
  readonly jarred: Readonly<Record<string, 'acid' | 'acidified'>>;
  readonly today: string;
}

const LOW_ACID = 'kitchen_safety:canning_low_acid';
const SUSPECT_JAR = 'kitchen_safety:canning_suspect';
const FIRM_MOULD = 'kitchen_safety:mould_firm_produce';

const no = (code: GiveCode, rows: readonly Row[] = []): MayGive => ({ allowed: false, code, rows });

export function may_give(rules: Rules, giving: Giving): MayGive {
  const { lot, question, trimmed_for, jar_of, jarred, today } = giving;
  const standing = lot.standing.map(({ finding }) => finding);
  const seen = [...question.findings, ...standing, ...trimmed_for];
  if (lot.seed.treated) return no('seed');
  if (seen.includes('unsure') || lot.suspects.some(({ state }) => state === 'open')) return no('doubtful');
  if (seen.some((finding) => is_spoilt(rules, finding))) return no('spoilt', [FIRM_MOULD]);
  if (jar_of?.length === 0) return no('not_told', [SUSPECT_JAR]);
  // A crop that needs acid added is as sour as somebody made it: nobody wrote that down.
  if (jar_of?.some((crop) => jarred[crop] !== 'acid')) return no('low_acid', [LOW_ACID]);
  if (lot.keeps_until !== null && lot.keeps_until < today) return no('past');
  const uses = uses_of(rules, question);
  const food = uses.steps.filter(({ step }) => step === 'raw' || step === 'cook');
  const rows = uses.steps.flatMap((one) => one.rows);
  if (!uses.known || food.length === 0) return no('not_food', [...new Set(rows)]);
  return { allowed: true, rows: [...new Set(food.flatMap((one) => one.rows))] };
}

export const given_body = (lot: string, amount: AmountBody): Body => ({
  ...(amount as Body),
  lot,
  for: 'give',
  turning: true,
});
