/** The one sentence Rounds opens with, told as a value; the words are the screen's. Pure. */
import type { Id } from '../../ledger/index.ts';
import { doorFor, isDue, type Door } from './walk.ts';

export type Lead =
  /** `door` is due and of the one who holds the phone. */
  | { readonly say: 'yours'; readonly door: Door }
  /** Begun on this phone and stopped. */
  | { readonly say: 'begun'; readonly door: Door }
  | { readonly say: 'theirs'; readonly door: Door; readonly whose: Id }
  | { readonly say: 'nobodys'; readonly door: Door }
  | { readonly say: 'nothing_due'; readonly next: Door }
  | { readonly say: 'nothing_there' };

export function leadOf(me: Id | undefined, doors: readonly Door[], today: string): Lead {
  const door = doorFor(me, doors, today);
  if (door === undefined) {
    const next = doors[0];
    return next === undefined ? { say: 'nothing_there' } : { say: 'nothing_due', next };
  }
  if (door.state === 'half') return { say: 'begun', door };
  if (me !== undefined && door.whose.includes(me)) return { say: 'yours', door };
  const whose = door.whose[0];
  return whose === undefined ? { say: 'nobodys', door } : { say: 'theirs', door, whose };
}

/** The doors that are not the one the key opens, and due too: offered when one walk is done. */
export const nextDoor = (
  me: Id | undefined,
  doors: readonly Door[],
  today: string,
  walked: Id,
): Door | undefined =>
  doorFor(
    me,
    doors.filter((door) => door.space !== walked && isDue(door, today)),
    today,
  );

export type PartOfDay = 'morning' | 'day' | 'evening';

/** By the hour of the household's day. */
export const partOfDay = (hour: number): PartOfDay => (hour < 11 ? 'morning' : hour < 16 ? 'day' : 'evening');
