/** Compost going on a bed, as the form has it, and whether it may be kept. Pure. */
import { kin_of_bed, type Taken } from '../../storekeeping/soil';
import type { HeapBody } from '../../storekeeping/shapes';

export interface Spread {
  readonly bed: string;
  /** What is to grow there; '' where nobody has said. */
  readonly grows: string;
  /** An adult says that what may have been a disease was none. */
  readonly seen: boolean;
  /** It lies on kin already: it tells what happened. */
  readonly accident: boolean;
}

export const NOTHING_SPREAD: Spread = { bed: '', grows: '', seen: false, accident: false };

export type Hindrance = 'grows' | 'kin' | 'maybe';

/** What stands against keeping it; undefined where nothing does. `table` turns an own crop into the one it is like. */
export function hindrance(
  { grows, seen, accident }: Spread,
  taken: readonly Taken[],
  table: (crop: string) => string,
): Hindrance | undefined {
  if (grows === '') return taken.length > 0 ? 'grows' : undefined;
  const barred = kin_of_bed(taken, table(grows));
  if (!barred) return undefined;
  if (barred.sure) return accident ? undefined : 'kin';
  return seen ? undefined : 'maybe';
}

export const spread_body = ({ bed, grows, accident }: Spread): Omit<HeapBody, 'heap'> => ({
  did: 'spread',
  ...(bed.trim() ? { bed: bed.trim() } : {}),
  ...(grows ? { grows } : {}),
  ...(accident ? { accident } : {}),
});
