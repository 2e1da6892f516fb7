/** What a walk writes: bodies of entries as `docs/fold.md` has them, from what the hand set. */
import type { Body, Id } from '../../ledger/index.ts';
import type { Going, LotInHand, Unsure } from './lotstep.ts';

/** Where on the walk a lot stands. */
export interface OnWalk {
  readonly round: Id;
  readonly space: Id;
}

/** A row of the ladder as W of an entry. */
export function went(to: string, more: { readonly part?: string; readonly grams?: number } = {}): Body {
  const [step = to, animals] = to.split(':');
  return {
    step,
    ...(animals === undefined ? {} : { animals }),
    ...(more.part === undefined ? {} : { part: more.part }),
    ...(more.grams === undefined ? {} : { grams: more.grams }),
  };
}

const out = (going: Going): Body => ({
  pieces: going.pieces,
  findings: [going.finding],
  went: [went(going.to ?? 'compost')],
});

/** On a walk what is cut off is cut where the lot stands. */
const trim = (going: Going, part: string | undefined): Body => ({
  pieces: going.pieces,
  findings: [going.finding],
  cut: {
    ...went(going.to ?? 'compost', {
      ...(part === undefined ? {} : { part }),
      ...(going.grams === undefined ? {} : { grams: going.grams }),
    }),
    cut_in: 'store',
  },
});

/**
 * An inspection. `counted` only where a hand set the number and it is all there is; a sample counts nothing.
 * `partOf` names the part that is cut off for a finding, where the ladder tells parts apart.
 */
export function inspectionBody(
  lot: LotInHand,
  walk: OnWalk,
  partOf: (finding: string) => string | undefined = () => undefined,
): Body {
  const of = (way: Going['way']) => lot.goings.filter((going) => going.way === way);
  const seen = lot.goings.map(({ finding, pieces }) => (pieces > 0 ? { finding, pieces } : { finding }));
  const some = (way: Going['way']) => of(way).filter(({ pieces }) => pieces > 0);
  const outs = some('out').map(out);
  const trims = some('trim').map((going) => trim(going, partOf(going.finding)));
  return {
    lot: lot.lot,
    round: walk.round,
    space: walk.space,
    way: lot.whole ? 'all' : 'sample',
    ...(lot.looked === undefined ? {} : { looked: lot.looked }),
    counted: lot.whole && lot.touched && lot.looked !== undefined,
    ...(seen.length ? { seen } : {}),
    ...(outs.length ? { out: outs } : {}),
    ...(trims.length ? { trims } : {}),
  };
}

export type WhyNot = 'out_of_reach' | 'no_time';

/** Not looked at: no look, no evidence; the lot stays due. */
export const notLookedBody = (lot: Id, walk: OnWalk, why_not: WhyNot): Body => ({
  lot,
  round: walk.round,
  space: walk.space,
  way: 'none',
  why_not,
  counted: false,
});

export type GoneTo = 'eaten' | 'given' | 'unknown' | 'compost' | 'bin' | `animals:${string}`;

/**
 * All gone. Eaten, given away or nobody knows: a count of nothing, its difference under that word. Thrown or fed:
 * the rest is culled there. Someone who may write neither looks the lot over and finds none.
 */
export function allGone(
  lot: Id,
  walk: OnWalk,
  to: GoneTo,
  left: { readonly pieces?: number; readonly grams?: number },
  may_write_stock: boolean,
): { readonly kind: 'count' | 'cull' | 'inspection'; readonly body: Body } {
  if (!may_write_stock) {
    const body = { lot, round: walk.round, space: walk.space, way: 'all', looked: 0, counted: true };
    return { kind: 'inspection', body };
  }
  if (to === 'eaten' || to === 'given' || to === 'unknown') {
    return { kind: 'count', body: { lot, ...nothing(left), gone: to } };
  }
  const amount = left.pieces === undefined && left.grams === undefined ? { pieces: 0 } : rounded(left);
  return { kind: 'cull', body: { lot, ...amount, findings: ['sound'], went: [went(to)], last: true } };
}

/** Nought in the measure the lot is known in: the other comes to nought with it. */
const nothing = (left: { readonly pieces?: number; readonly grams?: number }): Body =>
  left.pieces === undefined && left.grams !== undefined ? { grams: 0 } : { pieces: 0 };

/** As entries carry amounts: quarters of a piece, whole grams. */
const rounded = ({ pieces, grams }: { readonly pieces?: number; readonly grams?: number }): Body => ({
  ...(pieces === undefined ? {} : { pieces: Math.max(0, Math.round(pieces * 4) / 4) }),
  ...(grams === undefined ? {} : { grams: Math.max(0, Math.round(grams)) }),
});

/** One doubtful piece. Nobody could say: the finding is `unsure`. */
export const suspectBody = (lot: Id, walk: OnWalk, unsure: Unsure, lies: 'held' | 'set_apart'): Body => ({
  lot,
  round: walk.round,
  findings: unsure.findings.length ? [...unsure.findings] : ['unsure'],
  lies,
  pieces: 1,
  ...(unsure.ring === undefined ? {} : { ring: { ...unsure.ring } }),
});

export const roundBody = (space: Id, began_at: string, ended_at: string): Body => ({
  space,
  began_at,
  ended_at,
});
