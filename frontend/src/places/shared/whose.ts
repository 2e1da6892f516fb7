/** Whose a chore or a walk is, and who thought so too: the newest of claims and offers before what a sheet says. Pure. */
import type { Id, Line } from '../../ledger/index.ts';
import type { FoldState } from '../../storekeeping/state.ts';

type Taken = Pick<FoldState, 'claims' | 'offers'>;

/**
 * Who does it: whoever took it on and did not give it away. Given away it is free, unless a sheet made since has given
 * it to another.
 */
export function whose({ claims, offers }: Taken, key: string, told: Id | undefined): Id | undefined {
  const offer = offers[key];
  if (offer) return told === offer.person ? undefined : told;
  return claims[key]?.person ?? told;
}

/** Something the person took on and another had first (docs/fold.md F19). */
export interface HadFirst {
  readonly key: string;
  readonly by: Id;
}

const DAY = /\d{4}-\d\d-\d\d$/;
/** Told so long after the chore's day. Ours. [days] */
const TOLD_FOR = 2;

const days_after = (day: string, today: string): number => (Date.parse(today) - Date.parse(day)) / 86_400_000;

export function had_first(
  { claims, offers, chores_done }: Taken & Pick<FoldState, 'chores_done'>,
  lines: ReadonlyMap<Id, Line>,
  me: Id | undefined,
  today: string,
): readonly HadFirst[] {
  return Object.entries(claims).flatMap(([key, { person, others }]): HadFirst[] => {
    const day = DAY.exec(key)?.[0];
    const over = day !== undefined && days_after(day, today) > TOLD_FOR;
    if (person === me || over || offers[key] || chores_done[key]) return [];
    return others.some((entry) => lines.get(entry)?.written.person === me) ? [{ key, by: person }] : [];
  });
}
