/** How many pieces of a lot to look at: all, or a sample (the larger of a number and a share of what is there). */

/** One row of the table `looking_over`, as far as a look needs it. */
export interface HowToLook {
  readonly way: 'all' | 'sample';
  readonly sample_pieces_min?: number | null;
  readonly sample_share_pct?: number | null;
}

export interface LookPlan {
  /** Pieces the book says are there; absent where only a weight is known. */
  readonly there?: number;
  /** Pieces to look at; absent where nobody knows how many there are. */
  readonly looked?: number;
  /** Every piece is to be looked at. */
  readonly whole: boolean;
}

/**
 * So many pieces and more are gone over by the net or the tray, not told one by one: the book's number of them is not
 * said to have been looked at. Ours, no source.
 */
const BY_THE_NET = 60;

/** The number that may be said of a look over a whole lot: absent where it is the book's and nobody told so many. */
export const toldOf = (
  looked: number | undefined,
  { whole, by_hand }: { readonly whole: boolean; readonly by_hand: boolean },
): number | undefined =>
  looked !== undefined && whole && !by_hand && looked > BY_THE_NET ? undefined : looked;

/** A crop without a row (an own one) is looked over whole. Part pieces count as one to look at. */
export function lookPlan(how: HowToLook | undefined, pieces: number | undefined): LookPlan {
  // A book that says nought while the lot stands is no number to look at.
  if (pieces !== undefined && pieces <= 0) return { whole: how?.way !== 'sample' };
  const there = pieces === undefined ? undefined : Math.ceil(pieces);
  const least = how?.sample_pieces_min ?? 0;
  if (there === undefined) {
    return how?.way === 'sample' && least > 0
      ? { looked: least, whole: false }
      : { whole: how?.way !== 'sample' };
  }
  if (how?.way !== 'sample') return { there, looked: there, whole: true };
  const looked = Math.max(least, Math.ceil((there * (how.sample_share_pct ?? 0)) / 100));
  return looked >= there ? { there, looked: there, whole: true } : { there, looked, whole: false };
}
