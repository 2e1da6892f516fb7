/**
 * What may be put by: frozen, dried, fermented, jarred. Only sound pieces; docs/ladder.md, L14.
 * Twin: `homestead/storekeeping/putting_by.py`. Both run `fixtures/vectors/put_by.json`. The form asks it of what is in
 * hand, the server of what a put-by says was trimmed off.
 */

import { conditions_of, is_spoilt, select, type Rows } from './conditions.ts';
import type { Row, Rules } from './rules.ts';

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
