/** Pieces of a lot lost, or a part cut off them: the body of a cull or a trim. Pure. */
import type { AmountBody, CullBody, SetAsideBody, TrimBody, WentBody } from '../../storekeeping/shapes.ts';
import type { Step } from '../../storekeeping/rules.ts';
import type { LotState } from '../../storekeeping/state.ts';

export interface Outing {
  readonly lot: string;
  readonly findings: readonly string[];
  readonly amount: AmountBody;
  /** A row of the ladder as a form: a step, or `animals:<group>`. */
  readonly to: string;
}
export interface Cut extends Outing {
  readonly cut_in: 'store' | 'yard' | 'kitchen';
  readonly part: string | undefined;
}

/** What was turned away in the form; `cut` where it was a part cut off. */
export interface TurnedAway {
  readonly lot: string;
  readonly findings: readonly string[];
  readonly amount: AmountBody;
  readonly cut?: Pick<Cut, 'cut_in' | 'part'>;
}
export type OutEntry =
  { readonly kind: 'cull'; readonly body: CullBody } | { readonly kind: 'trim'; readonly body: TrimBody };

function way(to: string): WentBody {
  const [step = to, animals] = to.split(':');
  return { step: step as Step, ...(animals === undefined ? {} : { animals }) };
}

export const cull_body = ({ lot, findings, amount, to }: Outing): CullBody => ({
  lot,
  ...amount,
  findings,
  went: [way(to)],
});

/** What was cut off is weighed, or told by the pieces it was cut from. */
export const trim_body = ({ lot, findings, amount, to, cut_in, part }: Cut): TrimBody => ({
  lot,
  ...(amount.pieces === undefined ? {} : { pieces: amount.pieces }),
  findings,
  cut: {
    ...way(to),
    ...(amount.grams === undefined ? {} : { grams: amount.grams }),
    ...(part === undefined ? {} : { part }),
    cut_in,
  },
});

/**
 * Pieces of the seed were lost: what is kept for seed is less by as much, in the measure it was told in. None where that
 * measure of it is not known.
 */
export function less_seed(lot: Pick<LotState, 'id' | 'seed'>, lost: AmountBody): readonly SetAsideBody[] {
  const by = lost.grams === undefined ? 'pieces' : 'grams';
  const kept = lot.seed[by];
  if (kept === null) return [];
  const left = Math.max(0, kept - (lost[by] ?? 0));
  const whole = by === 'grams' ? Math.round(left) : Math.round(left * 4) / 4;
  return [{ lot: lot.id, [by]: whole, ...(lot.seed.treated ? { treated: true } : {}) }];
}

/** An amount less another, in the measure it was told in. */
const less = (amount: AmountBody, by: 'grams' | 'pieces', part: number): AmountBody => ({
  ...amount,
  [by]: (amount[by] ?? 0) - part,
});

function entry_of(out: Outing, cut: TurnedAway['cut'], accident: boolean): OutEntry {
  const marked = (went: WentBody): WentBody => (accident ? { ...went, accident } : went);
  if (cut === undefined) {
    const body = cull_body(out);
    return { kind: 'cull', body: { ...body, went: body.went.map(marked) } };
  }
  const body = trim_body({ ...out, ...cut });
  return { kind: 'trim', body: { ...body, cut: marked(body.cut) } };
}

/**
 * A group ate `ate` of what was turned away, in the measure it was told in: that is the accident. What lay there still
 * was taken out and went to the compost, which is an entry of its own.
 */
export function accident_entries(told: TurnedAway, group: string, ate: number): readonly OutEntry[] {
  const by = told.amount.grams === undefined ? 'pieces' : 'grams';
  const rest = less(told.amount, by, ate);
  const fed = { ...told, amount: { ...told.amount, [by]: ate }, to: `animals:${group}` };
  const left = (rest[by] ?? 0) > 0;
  return [
    entry_of(fed, told.cut, true),
    ...(left ? [entry_of({ ...told, amount: rest, to: 'compost' }, told.cut, false)] : []),
  ];
}
