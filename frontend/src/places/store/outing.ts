/** Pieces of a lot lost, or a part cut off them: the body of a cull or a trim. Pure. */
import type { AmountBody, CullBody, TrimBody, WentBody } from '../../storekeeping/shapes.ts';
import type { Step } from '../../storekeeping/rules.ts';

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
