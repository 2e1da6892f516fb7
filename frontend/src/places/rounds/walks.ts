/** Rounds begun on this phone: read from the drafts, begun, gone on with, closed when they were left. */
import type { Draft, Id } from '../../ledger';
import type { LotState } from '../../storekeeping/state';
import { house } from '../shared/house.svelte';
import { roundBody } from './bodies';
import { begin, DRAFT_KIND, draftId, isOpen, isStale, resume, type Walk } from './draft';
import { footing, mayWalk, planOf, underfoot } from './footing';
import { pickOverNow } from './lotstep';
import { lotsNow, lotsWithin } from './walk';
import { Walking } from './walking.svelte';

/** A draft of another shape (an older build) is no walk; what it kept is kept all the same. */
function walkOf(draft: Draft): Walk | undefined {
  const value = draft.value as unknown as Partial<Walk> | null;
  return value?.round && value.space && Array.isArray(value.lots) ? (value as Walk) : undefined;
}

const now = (): string => new Date().toISOString();

/** Left for a day, or at its end: the closing line is written where it is missing, the draft goes. */
async function putAway(walk: Walk): Promise<void> {
  if (walk.closed !== true && walk.passed.length > 0) {
    const body = roundBody(walk.space, walk.began_at, walk.ended_at ?? walk.at);
    const along = walk.with.length > 0 ? { with: walk.with } : {};
    const kept = await house.ledger.record_all([{ id: walk.round, kind: 'round', body, ...along }]);
    if (!kept.ok) return;
  }
  await house.ledger.drafts.drop(draftId(walk.round));
}

/** Rounds that may be gone on with; those left too long are put away on the way. */
export async function openWalks(): Promise<readonly Walk[]> {
  const drafts = await house.ledger.drafts.of_kind(DRAFT_KIND);
  const walks = drafts.map(walkOf).filter((walk) => walk !== undefined);
  const left = walks.filter((walk) => isStale(walk, now()));
  await Promise.all(left.map(putAway));
  return walks.filter((walk) => isOpen(walk) && !left.includes(walk));
}

/** The round, as it was left. */
export async function goOn(round: Id): Promise<Walking | undefined> {
  const draft = await house.ledger.drafts.get(draftId(round));
  const walk = draft && walkOf(draft);
  if (!walk) return undefined;
  const seenSince = (lot: Id): boolean => {
    const state = house.lot(lot);
    return state !== undefined && !state.finished && state.last_look.when_ms < Date.parse(walk.began_at);
  };
  return new Walking(footing(), resume(walk, seenSince, planOf, now()));
}

/** Begin to walk a space, or go on where it was begun. The id of the round; undefined where nothing is to be walked. */
export async function beginWalk(space: Id, minutes?: number): Promise<Id | undefined> {
  const walks = await openWalks();
  const begun = walks.find((walk) => walk.space === space);
  if (begun) return begun.round;
  const ground = underfoot(walks);
  const all = lotsNow(space, ground);
  const lots = minutes === undefined ? all : lotsWithin(all, minutes, ground);
  const writer = house.writer_id;
  if (lots.length === 0 || writer === undefined || !mayWalk()) return undefined;
  const along = (ground.roster.who[space] ?? []).filter((person) => person !== writer);
  const walk = begin({
    round: house.ledger.mint_id(),
    space,
    now: now(),
    writer,
    with: (ground.roster.who[space] ?? []).includes(writer) ? along : [],
    lots: lots.map((lot) => lot.id),
    ...(minutes === undefined ? {} : { minutes }),
  });
  const kept = await house.ledger.drafts.put({
    id: draftId(walk.round),
    kind: DRAFT_KIND,
    value: JSON.parse(JSON.stringify(walk)),
  });
  return kept.ok ? walk.round : undefined;
}

/** A walk to one lot, every piece of it: a chore. */
export async function pickOverWalk(lot: LotState): Promise<Id | undefined> {
  const writer = house.writer_id;
  if (writer === undefined) return undefined;
  const walk = begin({
    round: house.ledger.mint_id(),
    space: lot.space,
    now: now(),
    writer,
    with: [],
    lots: [lot.id],
  });
  const walking = new Walking(footing(), walk);
  await walking.enter(undefined);
  await walking.setHand((hand) => pickOverNow(hand, planOf(lot.id)));
  return walk.round;
}

/** Stopped: kept as it is, to be gone on with; a round in which nothing was kept yet is let go. */
export async function stop(walking: Walking): Promise<void> {
  const { walk } = walking;
  if (
    walk.page === 'air' ||
    (walk.passed.length === 0 && walk.beside.length === 0 && walk.hand?.goings.length === 0)
  )
    await walking.leave();
}
