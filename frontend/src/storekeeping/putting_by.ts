/**
 * What may be put by: frozen, dried, fermented, jarred. Only sound pieces; docs/ladder.md, L14.
 * Twin: `homestead/storekeeping/putting_by.py`. Both run `fixtures/vectors/put_by.json`. The form asks it of what is in
 * hand and of what the fold knows of the lot, and the push asks it again.
 */

import { conditions_of, is_spoilt, select, type Rows } from './conditions.ts';
import type { Row, Rules } from './rules.ts';
import type { LotState, StandingFinding } from './state.ts';

export type PutByCode = 'unsure' | 'spoilt' | 'patulin' | 'not_sound' | 'not_known';

export interface MayPutBy {
  readonly allowed: boolean;
  readonly code?: PutByCode;
  readonly rows: readonly Row[];
}

/** States that end a piece's keeping, whatever its rows say: cut back, thawed, drawn out, dressed. */
const NEVER = ['trimmed', 'thawed', 'spent', 'treated'];
/** The topic of rows that speak of the poison that outlives heat. */
export const PATULIN = 'mould_apple_patulin';
/** Rows shown for the reasons that no row of the crop tells. */
const FIRM_MOULD = 'kitchen_safety:mould_firm_produce';
const PATULIN_ROW = `kitchen_safety:${PATULIN}`;
const GNAWED = 'gnawed';
/** A piece left behind may weigh half of the lot's mean; the project's own figure. */
const LIGHTER = 0.5;
/** Rounding, in pieces or grams. */
const NEAR = 0.01;

/** `crop`: of the tables. `findings`: of the pieces as they are to be put by, `sound` where nothing is on them. */
export function may_put_by(rules: Rules, crop: string, findings: readonly string[]): MayPutBy {
  const conditions = conditions_of(rules, { crop, findings });
  if (conditions.includes('unsure')) return refused('unsure', []);
  const rows = rows_of(rules, crop, conditions);
  const names = Object.keys(rows ?? {});
  if (Object.values(rows ?? {}).some(({ topic }) => topic === PATULIN))
    return refused('patulin', [...names, PATULIN_ROW]);
  if (conditions.some((condition) => is_spoilt(rules, condition)))
    return refused('spoilt', [...names, FIRM_MOULD]);
  if (rows === null) return refused('not_known', []);
  const worn = conditions.some((condition) => NEVER.includes(condition) || condition === GNAWED);
  const all_eaten = Object.values(rows).every(({ steps }) => steps.includes('raw') || steps.includes('cook'));
  return worn || !all_eaten ? refused('not_sound', names) : { allowed: true, rows: names };
}

/** Some of a lot, as a form or a line tells it. */
export interface SomeOfIt {
  readonly pieces?: number;
  readonly grams?: number;
}
type OfLot = Pick<LotState, 'pieces' | 'grams' | 'ratio' | 'standing'>;

/**
 * `may_put_by` of some of a lot, by what was told of these pieces (null: an older phone told nothing) and what stands on the
 * lot. A finding that nobody numbered holds for all pieces unless these were looked at; a numbered one for so many, and
 * they stay.
 */
export function may_put_by_of_lot(
  rules: Rules,
  crop: string,
  told: readonly string[] | null,
  amount: SomeOfIt,
  lot: OfLot,
): MayPutBy {
  const in_hand = may_put_by(rules, crop, told ?? ['sound']);
  if (told !== null && !in_hand.allowed) return in_hand;
  for (const seen of lot.standing) {
    const answer = may_put_by(rules, crop, [seen.finding]);
    const holds = seen.pieces === null ? told === null : takes_them_too(seen, seen.pieces, amount, lot);
    if (holds && !answer.allowed) return answer;
  }
  return in_hand;
}

/** Does the amount leave fewer pieces behind than the finding was seen on? */
function takes_them_too(
  { share }: StandingFinding,
  on: number,
  { pieces, grams }: SomeOfIt,
  lot: OfLot,
): boolean {
  if ((share ?? 0) >= 1) return true;
  if (pieces !== undefined && lot.pieces !== null) return lot.pieces - pieces < on - NEAR;
  if (grams === undefined || lot.grams === null || lot.ratio === null) return false;
  return lot.grams - grams < on * lot.ratio * LIGHTER - NEAR;
}

/** Of what was cut off pieces that are put by: was it rot or mould, or nobody could say, they are not. */
export function may_be_trimmed_off(rules: Rules, crop: string, findings: readonly string[]): MayPutBy {
  const fine: MayPutBy = { allowed: true, rows: [] };
  const answer = findings.length > 0 ? may_put_by(rules, crop, findings) : fine;
  return ['unsure', 'spoilt', 'patulin'].includes(answer.code ?? '') ? answer : fine;
}

/** What holds for people of the whole piece in all these states; null when one state is not known. */
function rows_of(rules: Rules, crop: string, conditions: readonly string[]): Rows | null {
  let rows: Rows = {};
  for (const condition of conditions) {
    const selected = select(rules, crop, null, condition);
    if (selected === null) return null;
    rows = { ...rows, ...selected.people };
  }
  return rows;
}

const refused = (code: PutByCode, rows: readonly Row[]): MayPutBy => ({
  allowed: false,
  code,
  rows: [...new Set(rows)],
});
