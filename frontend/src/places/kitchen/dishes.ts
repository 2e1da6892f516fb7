/**
 * Dishes that rescue most of what is going: of a week's loss as much as one dish takes. What a dish may take, the ladder says
 * (docs/ladder.md, L17), asked as every screen asks it; the table of dishes only says what belongs together. Pure.
 */
import { uses_of } from '../../storekeeping/ladder.ts';
import { PATULIN } from '../../storekeeping/putting_by.ts';
import type { Allowed, NotFor, Question, Row, Rules } from '../../storekeeping/rules.ts';
import type { LotState } from '../../storekeeping/state.ts';

export type DishStep = 'raw' | 'cook' | 'pot';

export interface DishUse {
  /** Of the tables, or one of the household's own. */
  readonly crop: string;
  /** Null: the piece as it is stored. */
  readonly part: string | null;
  /** States the dish is good with; null: whatever the ladder leaves. */
  readonly states: readonly string[] | null;
  /** For those at table. */
  readonly grams: number;
}

export interface DishKind {
  readonly id: string;
  /** One of the household's own, which has a name of its own. */
  readonly own: boolean;
  readonly step: DishStep;
  readonly uses: readonly DishUse[];
}

/** A lot that may be cooked from. */
export interface InStore {
  readonly lot: Pick<LotState, 'id' | 'crop' | 'standing' | 'food' | 'ratio'>;
  /** The crop of the tables it is judged as. */
  readonly crop: string;
  /** What a week of waiting loses [g], where a sheet told it. */
  readonly loses: number | undefined;
}

/** What a dish takes of one lot. */
export interface Taken {
  readonly lot: string;
  readonly crop: string;
  readonly part: string | null;
  /** On the pieces it is for; `sound` where nothing was seen on them. */
  readonly findings: readonly string[];
  readonly grams: number;
  /** Of the week's loss [g]. */
  readonly saves: number;
  readonly rows: readonly Row[];
}

export interface Rescue {
  readonly kind: DishKind;
  readonly taken: readonly Taken[];
  /** What it wants beside that is not in the store. */
  readonly missing: readonly DishUse[];
  readonly saves: number;
  /** Who at table must not have it, with the rule. */
  readonly not_for: readonly NotFor[];
}

/** The ladder's question, as this household asks it: who is at table, how old the lot is, whether it is dressed seed. */
export type Ask = (
  crop: string,
  told: { readonly findings: readonly string[]; readonly part?: string },
  lot?: string,
) => Question;

/** A dish that takes a limp or an old piece takes a sound one. */
const WEAR = ['sound', 'old', 'shrivelled'];
/** A dish is one still when half of its weight is in the store; the project's own figure. */
const LEAST_SHARE = 0.5;
/** What somebody at table must not share in is no dish for the table. */
const NEVER_SHARED = 'no_nuts';

/**
 * What is on the pieces of a lot, the worst first: a finding that nobody numbered, or that was on all, is on every piece; one
 * with a share is on some, and the rest is without it. Suspects are no food until decided.
 */
export function states_on({ standing }: Pick<LotState, 'standing'>): readonly (readonly string[])[] {
  const seen = standing.filter(({ suspect }) => !suspect);
  const of_all = ({ share }: (typeof seen)[number]): boolean => share === null || share >= 1;
  const on_all = seen.filter(of_all).map(({ finding }) => finding);
  const on_some = seen.filter((one) => !of_all(one)).map(({ finding }) => finding);
  return [
    ...on_some.map((finding) => [...new Set([...on_all, finding])]),
    on_all.length > 0 ? [...new Set(on_all)] : ['sound'],
  ];
}

/** What waiting loses of it [g]: by the sheet, else what shows signs already and was numbered. */
export function at_stake({ lot, loses }: InStore): number {
  if (loses !== undefined) return loses;
  const pieces = lot.standing.map((one) => (one.suspect ? 0 : (one.pieces ?? 0)));
  return Math.max(0, ...pieces) * (lot.ratio ?? 0);
}

const wants = ({ states }: DishUse, findings: readonly string[]): boolean =>
  states === null ||
  findings.every((one) =>
    one === 'sound' ? WEAR.some((state) => states.includes(state)) : states.includes(one),
  );

interface Fit {
  readonly findings: readonly string[];
  readonly allowed: Allowed;
}

/** Fruit that may carry the poison that outlives heat is cut and eaten as it is, and goes into no dish (US FDA). */
const PATULIN_ROW = `kitchen_safety:${PATULIN}`;

/** The worst pieces of a lot that the dish is good with and the ladder leaves for its step; undefined: none. */
function fit(rules: Rules, step: DishStep, use: DishUse, one: InStore, ask: Ask): Fit | undefined {
  for (const findings of states_on(one.lot)) {
    if (!wants(use, findings)) continue;
    const part = use.part === null ? {} : { part: use.part };
    const uses = uses_of(rules, ask(one.crop, { findings, ...part }, one.lot.id));
    const allowed = uses.known ? uses.steps.find((left) => left.step === step) : undefined;
    if (allowed && !allowed.cautions.includes(PATULIN_ROW)) return { findings, allowed };
  }
  return undefined;
}

function take(
  rules: Rules,
  step: DishStep,
  use: DishUse,
  store: readonly InStore[],
  ask: Ask,
): { readonly taken: readonly Taken[]; readonly not_for: readonly NotFor[] } {
  let left = use.grams;
  const not_for: NotFor[] = [];
  const taken: Taken[] = [];
  const of_crop = store.filter(({ crop, lot }) => crop === use.crop || lot.crop === use.crop);
  for (const one of [...of_crop].sort((a, b) => at_stake(b) - at_stake(a))) {
    const found = left > 0 ? fit(rules, step, use, one, ask) : undefined;
    const grams = Math.min(left, one.lot.food.grams ?? left);
    if (!found || grams <= 0) continue;
    left -= grams;
    not_for.push(...found.allowed.not_for);
    taken.push({
      lot: one.lot.id,
      crop: one.lot.crop,
      part: use.part,
      findings: found.findings,
      grams,
      // Peel and tops are no piece: what waiting loses is counted in pieces.
      saves: use.part === null ? Math.min(grams, at_stake(one)) : 0,
      rows: [...found.allowed.rows, ...found.allowed.cautions],
    });
  }
  return { taken, not_for };
}

function rescue(rules: Rules, kind: DishKind, store: readonly InStore[], ask: Ask): Rescue {
  const parts = kind.uses.map((use) => ({ use, ...take(rules, kind.step, use, store, ask) }));
  const missing = parts.filter(({ taken }) => taken.length === 0).map(({ use }) => use);
  // What has to be got for it is shared in all the same.
  const got = missing.flatMap(({ crop, part }) => {
    const told = { findings: ['sound'], ...(part === null ? {} : { part }) };
    return uses_of(rules, ask(crop, told)).steps.find(({ step }) => step === kind.step)?.not_for ?? [];
  });
  const not_for = [...parts.flatMap((one) => one.not_for), ...got];
  const taken = parts.flatMap((one) => one.taken);
  return {
    kind,
    taken,
    missing,
    saves: Math.round(taken.reduce((sum, { saves }) => sum + saves, 0)),
    not_for: [...new Map(not_for.map((one) => [`${one.eater} ${one.row}`, one])).values()],
  };
}

const weight = (uses: readonly { readonly grams: number }[]): number =>
  uses.reduce((sum, { grams }) => sum + grams, 0);

const is_shared = ({ not_for }: Rescue): boolean => not_for.every(({ eater }) => eater !== NEVER_SHARED);

export interface Rescues {
  /** Most saved first. */
  readonly dishes: readonly Rescue[];
  /** Left out because somebody at table must not share in them. */
  readonly left_out: readonly Rescue[];
}

/** `kinds` scaled to those at table. */
export function dishes_that_rescue(
  rules: Rules,
  kinds: readonly DishKind[],
  store: readonly InStore[],
  ask: Ask,
): Rescues {
  const found = kinds
    .map((kind) => rescue(rules, kind, store, ask))
    .filter(({ saves, missing, kind }) => saves > 0 && weight(missing) <= LEAST_SHARE * weight(kind.uses))
    .sort(
      (a, b) =>
        b.saves - a.saves || a.missing.length - b.missing.length || a.kind.id.localeCompare(b.kind.id),
    );
  return { dishes: found.filter(is_shared), left_out: found.filter((one) => !is_shared(one)) };
}
