/**
 * What to use now, in order: what somebody said to use first; then by what a week of waiting loses, in grams, of lots that
 * have come down the ladder or lose most; without a sheet the lowest rung first, then the oldest. Pure.
 */
import { rung_of } from '../../storekeeping/ladder';
import { STEPS, type Rules, type Step } from '../../storekeeping/rules';
import type { LotState } from '../../storekeeping/state';
import type { Turning } from '../shared/on_the_turn';

export interface OnTheTurn {
  readonly lot: LotState;
  /** Best use left for its worst pieces. */
  readonly step: Step;
  /** Where a sound piece of the crop begins. */
  readonly from: 'raw' | 'cook';
  /** It has come down, or somebody said to use it first. */
  readonly turning: boolean;
  /** What a week of waiting loses [g], and its band P10 to P90; undefined where the sheet is silent. */
  readonly loses: Loses | undefined;
}

export interface Loses {
  readonly grams: number;
  readonly low: number;
  readonly high: number;
}

/** A row of the sheet `on_the_turn`. */
type OfSheet = Pick<Turning, 'lot' | 'grams' | 'lost'>;

/** Less than half a piece, or a handful, that was only worked out is nothing to send a cook for. */
const LEAST_GRAMS = 100;

function has_food({ food, curing, finished, known, own_measure }: LotState): boolean {
  if (finished || curing) return false;
  const { grams, pieces } = food;
  if (known === 'counted') return (grams ?? 0) > 0 || (pieces ?? 0) > 0;
  return own_measure === 'pieces' && pieces !== null
    ? Math.round(pieces) > 0
    : (grams ?? 0) >= LEAST_GRAMS || (pieces ?? 0) >= 1;
}

/** A decision on one of its pieces says to use it first and is not done. */
const use_first = (lot: LotState): boolean =>
  lot.suspects.some((suspect) =>
    suspect.decisions.some((one) => one.stands && one.do === 'use_first' && !one.done),
  );

function judged(rules: Rules, crop: string, lot: LotState, told: OfSheet | undefined): OnTheTurn {
  const starts = rules.crops[crop]?.starts_at ?? 'raw';
  const { turning } = rung_of(rules, crop, lot.standing);
  return {
    lot,
    step: turning,
    from: starts === 'raw' ? 'raw' : 'cook',
    turning: STEPS.indexOf(turning) > STEPS.indexOf(starts) || use_first(lot),
    loses: told && { grams: told.grams, low: told.lost[0], high: told.lost[2] },
  };
}

/** Below animals nothing is for the kitchen: such pieces are looked over, not cooked. */
const eatable = ({ step }: OnTheTurn): boolean => STEPS.indexOf(step) < STEPS.indexOf('animals');

const rank = (a: OnTheTurn, b: OnTheTurn): number =>
  Number(use_first(b.lot)) - Number(use_first(a.lot)) ||
  (b.loses?.grams ?? 0) - (a.loses?.grams ?? 0) ||
  Number(b.turning) - Number(a.turning) ||
  (a.turning && b.turning ? STEPS.indexOf(b.step) - STEPS.indexOf(a.step) : 0) ||
  (a.lot.keeps_until ?? '9999').localeCompare(b.lot.keeps_until ?? '9999') ||
  a.lot.put_away_day.localeCompare(b.lot.put_away_day) ||
  a.lot.id.localeCompare(b.lot.id);

/** `table_crop` names the crop of the tables a lot's crop is judged as; `sheet` what a week of waiting loses of each lot. */
export const to_use = (
  rules: Rules,
  lots: readonly LotState[],
  table_crop: (crop: string) => string,
  sheet: readonly OfSheet[] = [],
): readonly OnTheTurn[] =>
  lots
    .filter(has_food)
    .map((lot) =>
      judged(
        rules,
        table_crop(lot.crop),
        lot,
        sheet.find((row) => row.lot === lot.id),
      ),
    )
    .filter(eatable)
    .sort(rank);
