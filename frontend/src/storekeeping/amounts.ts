/**
 * Pieces and grams: how one gives the other, and how what left is shared out (F5 to F9). Numbers only.
 *
 * Twin: `homestead/storekeeping/amounts.py`.
 */

/** Below this, pieces or grams are too little to tell a ratio by, or a difference from rounding. */
export const NEAR = 0.01;

export type Maybe = number | null;
export interface Both {
  readonly pieces: Maybe;
  readonly grams: Maybe;
}
interface MaybeWeighed {
  readonly grams?: number;
}

/** F6: the measure not given, by the ratio [g a piece]; without a ratio it stays unknown. */
export function filled(pieces: Maybe, grams: Maybe, ratio: Maybe): Both {
  if (ratio === null) return { pieces, grams };
  if (pieces === null) return { pieces: grams === null ? null : grams / ratio, grams };
  return { pieces, grams: grams === null ? pieces * ratio : grams };
}

/** F7: grams a piece, where there is enough of both to tell; else as before. */
export function ratio_of(pieces: Maybe, grams: Maybe, before: Maybe): Maybe {
  return pieces !== null && grams !== null && pieces > NEAR && grams > NEAR ? grams / pieces : before;
}

/** How many of these went without a weight. */
export function lacking(written: readonly MaybeWeighed[]): number {
  return written.filter((went) => went.grams === undefined).length;
}

/** The weights written, together [g]; null where none is. */
export function weighed(written: readonly MaybeWeighed[]): Maybe {
  let total: Maybe = null;
  for (const { grams } of written) if (grams !== undefined) total = (total ?? 0) + grams;
  return total;
}

/**
 * F9: the grams of each went, and whether more was written than left.
 *
 * One without grams has the rest of what left; any other sum is scaled to what left. left null: not known, the grams
 * stay as written.
 */
export function shared_out(left: Maybe, written: readonly MaybeWeighed[]): { grams: Maybe[]; more: boolean } {
  if (left === null) return { grams: written.map((went) => went.grams ?? null), more: false };
  const total = weighed(written) ?? 0;
  const open_ones = lacking(written);
  const more = total > left + NEAR;
  if (open_ones > 0 && !more) {
    const rest = (left - total) / open_ones;
    return { grams: written.map((went) => went.grams ?? rest), more: false };
  }
  if (total <= 0) return { grams: written.map(() => left / written.length), more: false };
  return { grams: written.map((went) => ((went.grams ?? 0) * left) / total), more };
}

/** The pieces of each went: by weight, or evenly where a weight is not known. */
export function pieces_shared(pieces: Maybe, grams: readonly Maybe[]): Maybe[] {
  if (pieces === null) return grams.map(() => null);
  const total = grams.reduce<number>((sum, each) => sum + (each ?? 0), 0);
  if (total <= NEAR || grams.includes(null)) return grams.map(() => pieces / grams.length);
  return grams.map((each) => (pieces * (each ?? 0)) / total);
}

/** F15: trimmings of a put-by over the lots it came from: by grams written, else evenly [g]. */
export function trimmed_shares(trimmed: number, froms: readonly MaybeWeighed[]): number[] {
  const total = weighed(froms) ?? 0;
  if (lacking(froms) > 0 || total <= 0) return froms.map(() => trimmed / froms.length);
  return froms.map((each) => (trimmed * (each.grams ?? 0)) / total);
}
