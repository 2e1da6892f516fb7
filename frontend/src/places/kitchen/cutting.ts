/** One piece of a lot cut down to the good inside: what is cut off goes its ways, the rest to the table. Pure. */
import type { Body, Id, NewEntry } from '../../ledger/index.ts';
import { NOT_KNOWN } from '../../storekeeping/conditions.ts';
import type { CutIn } from '../../storekeeping/rules.ts';
import type { Offer } from '../shared/offer.ts';

/** What is cut off of one part, and where it goes: a row of the ladder as a form. Untouched it is not written. */
export interface Cut {
  readonly part: string;
  readonly grams: number;
  readonly to: string;
}

export interface Cutting {
  readonly lot: Id;
  readonly pieces: number;
  readonly findings: readonly string[];
  readonly cut_in: CutIn;
  readonly cuts: readonly Cut[];
  /** What one piece weighs; null: not known, then only pieces are taken. */
  readonly ratio: number | null;
}

/** What is left for the table [g]; null where a piece's weight is not known. Below nought: more was cut than there was. */
export function good_inside({
  pieces,
  cuts,
  ratio,
}: Pick<Cutting, 'pieces' | 'cuts' | 'ratio'>): number | null {
  if (ratio === null) return null;
  return Math.round(pieces * ratio - cuts.reduce((sum, { grams }) => sum + grams, 0));
}

/** The trims first, then what was eaten: together they are the piece, to the gram. */
export function cut_entries(cutting: Cutting): readonly NewEntry[] {
  const { lot, pieces, findings, cut_in, cuts } = cutting;
  const inside = good_inside(cutting);
  const trims = cuts.map(({ part, grams, to }): NewEntry => {
    const [step = to, animals] = to.split(':');
    const named: Body = part === NOT_KNOWN ? {} : { part };
    const cut: Body = { step, ...(animals === undefined ? {} : { animals }), grams, ...named, cut_in };
    return { kind: 'trim', body: { lot, pieces, findings: [...findings], cut } };
  });
  const weighed: Body = inside === null ? {} : { grams: Math.max(0, inside), measured: 'guessed' };
  return [...trims, { kind: 'take', body: { lot, for: 'eat', pieces, ...weighed } }];
}

/** Of the groups kept, the one whose kind the ladder's row names first for this part: "clean strippings to the hens". */
export const named_first = (
  groups: readonly { readonly id: Id; readonly kind: string }[],
  kinds: readonly string[],
): Id | undefined =>
  kinds.flatMap((kind) => groups.find((group) => group.kind === kind) ?? []).map(({ id }) => id)[0];

/**
 * Where a part goes unless a hand says otherwise: down the ladder from the animals, since it is cut off to be thrown, and of
 * those to the group that the ladder names first; a part that has no word of its own in this state to the compost.
 */
export function goes_first(offered: Offer, has_own_row: boolean, named?: Id): string | undefined {
  const rows = offered.rows.filter((row) => row.offered && row.step !== 'raw' && row.step !== 'cook');
  const key = (row: (typeof rows)[number] | undefined): string | undefined => row && (row.key ?? row.step);
  const fed = has_own_row ? rows.filter((row) => row.step === 'animals') : [];
  const animals = fed.find((row) => key(row) === `animals:${named}`) ?? fed[0];
  return key(animals) ?? key(rows.find((row) => row.step === 'compost')) ?? key(rows.at(-1));
}
