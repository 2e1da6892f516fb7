/** Scraps as a form keeps them: what, cut where, in which state, how measured, and where each part of it went. Pure. */
import type { Id } from '../../ledger';
import type { Measured } from '../../storekeeping/diet';
import { NOT_KNOWN } from '../../storekeeping/conditions';
import type { CutIn, Question, Rules } from '../../storekeeping/rules';
import type { ScrapBody, Step, WeighedWentBody } from '../../storekeeping/shapes';

export type What = 'one' | 'mixed' | 'plates' | 'pot';
export type State = 'sound' | 'old' | 'cooked' | 'salted' | 'mouldy' | 'rotten' | 'unsure';

export const STATES: readonly State[] = ['sound', 'old', 'cooked', 'salted', 'mouldy', 'rotten', 'unsure'];
const FINDING: Readonly<Record<State, string>> = {
  sound: 'sound',
  old: 'old',
  cooked: 'cooked',
  salted: 'salted',
  mouldy: 'mould',
  rotten: 'rot',
  unsure: 'unsure',
};
export const MIXED = 'any_produce';
export const FROM_THE_POT = 'stock_pot_solids';

export interface Form {
  readonly what: What;
  /** '' while none is chosen. */
  readonly crop: string;
  /** '' where nobody knows which part. */
  readonly part: string;
  readonly cut_in: CutIn;
  readonly state: State;
  /** A disease that lives on in soil, by its finding, where somebody knew it; else absent or ''. */
  readonly disease?: string;
  readonly measured: Measured;
}

/** Off plates it is cooked and may be salted; out of the pot it is spent: neither is ever asked about as fresh. */
export function findings_of({ what, state, disease }: Form): readonly string[] {
  if (what === 'pot') return ['spent'];
  if (what === 'plates') return [...new Set(['cooked', ...(state === 'sound' ? [] : [FINDING[state]])])];
  return [what === 'one' && is_bad(state) && disease ? disease : FINDING[state]];
}

export const is_bad = (state: State): boolean => state === 'mouldy' || state === 'rotten';

/** Diseases that live on in soil which this crop may carry, each by the finding that names it. */
export const soil_diseases = (rules: Pick<Rules, 'soil'>, crop: string): readonly SoilDisease[] =>
  rules.soil
    .filter(({ carriers }) => carriers.includes(crop))
    .flatMap(({ id, findings }) => (findings[0] ? [{ id, finding: findings[0] }] : []));

export interface SoilDisease {
  readonly id: string;
  readonly finding: string;
}

/** What was on a table or in a pot has been through a kitchen, wherever the pail stands. */
export const cut_where = ({ what, cut_in }: Form): CutIn =>
  what === 'plates' || what === 'pot' ? 'kitchen' : cut_in;

/** The crop the tables are asked about; `table` turns an own crop into the one it is like. */
export function asked_crop(form: Form, table: (crop: string) => string): string {
  if (form.what === 'pot') return FROM_THE_POT;
  return form.what === 'one' && form.crop ? table(form.crop) : MIXED;
}

/** As the server asks at push: scraps of a crop that name no part are judged by the most cautious row. */
export function question_of(form: Form, table: (crop: string) => string): Omit<Question, 'eaters'> {
  const crop = asked_crop(form, table);
  return {
    crop,
    part: form.what === 'one' ? form.part || NOT_KNOWN : null,
    findings: findings_of(form),
    cut_in: cut_where(form),
  };
}

/** Parts of a crop that come off, the whole first. */
export function parts_of(rules: Rules, crop: string): readonly string[] {
  const stored = rules.crops[crop]?.stored_part;
  const named = Object.keys(rules.ladder[crop]?.['sound'] ?? {}).filter(
    (part) => part !== stored && part !== 'sound part' && part !== 'bad part',
  );
  return [...(stored ? [stored] : []), ...named];
}

export interface Way {
  readonly step: Step;
  readonly animals?: Id;
}

/** A row of the ladder's form: a step, or `animals:` and the group. */
export function way_of(row: string): Way {
  const [step = 'bin', animals] = row.split(':');
  return animals === undefined ? { step: step as Step } : { step: step as Step, animals };
}

/** The entry's body: each way with its grams. */
export function body_of(form: Form, ways: Readonly<Record<string, number>>): ScrapBody {
  const went = Object.entries(ways).map(([row, grams]): WeighedWentBody => {
    const { step, animals } = way_of(row);
    return {
      step,
      grams,
      ...(form.what === 'one' && form.part ? { part: form.part } : {}),
      cut_in: cut_where(form),
      ...(animals ? { animals } : {}),
    };
  });
  const crop = form.what === 'pot' ? FROM_THE_POT : form.what === 'one' ? form.crop : '';
  return {
    ...(crop ? { crop } : {}),
    findings: findings_of(form),
    went,
    ...(form.measured === 'weighed' ? {} : { measured: form.measured }),
  };
}

/** They ate `ate` of what was thrown; what lay there still went to compost. */
export function accident_body(form: Form, group: Id, thrown: number, ate: number): ScrapBody {
  const body = body_of(form, { [`animals:${group}`]: ate });
  const fed = body.went.map((went): WeighedWentBody => ({ ...went, accident: true }));
  const rest = thrown - ate;
  return { ...body, went: [...fed, ...(rest > 0 ? [{ step: 'compost' as const, grams: rest }] : [])] };
}
