/**
 * One lot in the hand on a walk, before anything of it is kept: plain values, and steps from one to the next.
 * Whatever a person has set survives a reload, since the round's draft carries it.
 */
import type { Hash, Id } from '../../ledger/index.ts';
import { toldOf, type LookPlan } from './sample.ts';

/** `out` left the lot, `trim` lost a part and stays, `left` was seen and stays as it is. */
export type Way = 'out' | 'trim' | 'left';

/** What was seen of some pieces, and where they (or what was cut off them) go. */
export interface Going {
  readonly finding: string;
  readonly way: Way;
  readonly pieces: number;
  /** A row of the ladder: a step, or `animals:<group>`. */
  readonly to?: string;
  /** What was cut off, where somebody weighed it. [g] */
  readonly grams?: number;
}

export type PickOver = 'now' | 'chore' | 'no';

/** In shares of the picture's longer side, from the top left. */
export interface Ring {
  readonly x: number;
  readonly y: number;
  readonly r: number;
}

/** A piece someone is unsure of, before it is kept. */
export interface Unsure {
  readonly findings: readonly string[];
  readonly photo?: Hash;
  /** One was taken, and the phone had no room for it. */
  readonly without_photo?: true;
  readonly ring?: Ring;
  /** Chosen by hand; otherwise the advice holds. */
  readonly lies?: 'held' | 'set_apart';
}

export interface LotInHand {
  readonly lot: Id;
  readonly page: 'look' | 'out' | 'unsure';
  readonly looked?: number;
  /** The number was set or touched by hand. */
  readonly touched: boolean;
  /** The looked ones are all there is (or every piece was looked at), not some of them. */
  readonly whole: boolean;
  readonly goings: readonly Going[];
  /** Nothing is out: of what is ticked a part was cut off. */
  readonly only_trimmed?: boolean;
  readonly photos: readonly Hash[];
  readonly pick_over?: PickOver;
  readonly unsure?: Unsure;
  /** The number looked at was put up to what went out: to be told. */
  readonly raised?: boolean;
}

export function takeUp(lot: Id, plan: LookPlan): LotInHand {
  return {
    lot,
    page: 'look',
    ...(plan.looked === undefined ? {} : { looked: plan.looked }),
    touched: false,
    whole: plan.whole,
    goings: [],
    photos: [],
  };
}

/** Pieces that may be said to have been looked at, one by one. */
export const toldPieces = (lot: LotInHand): number | undefined =>
  toldOf(lot.looked, { whole: lot.whole, by_hand: lot.touched });

/** Another page of the same lot; what was set on the one before stays. */
export const turnTo = (lot: LotInHand, page: LotInHand['page']): LotInHand => ({ ...lot, page });

export const piecesGoing = (lot: LotInHand, way: Way): number =>
  lot.goings.reduce((sum, going) => (going.way === way ? sum + going.pieces : sum), 0);

/** No more can be out than were looked at: the number looked at goes up with them, and that is told. */
function raiseToSeen(lot: LotInHand): LotInHand {
  const seen = Math.ceil(lot.goings.reduce((sum, going) => sum + going.pieces, 0));
  return lot.looked === undefined || lot.looked >= seen ? lot : { ...lot, looked: seen, raised: true };
}

/** A hand set the number. */
export const setLooked = (lot: LotInHand, looked: number): LotInHand =>
  raiseToSeen({ ...lot, looked, touched: true, raised: false });

/** Once touched: are those all there is, or only some? */
export const setWhole = (lot: LotInHand, whole: boolean): LotInHand => ({ ...lot, whole });

/** Each ticked finding gets a going of its own, of one piece; unticked, its going is dropped. */
export function setFindings(
  lot: LotInHand,
  findings: readonly string[],
  fresh: (finding: string) => Pick<Going, 'way' | 'to'>,
): LotInHand {
  const kept = lot.goings.filter((going) => findings.includes(going.finding));
  const held = new Set(kept.map((going) => going.finding));
  const added = findings
    .filter((finding) => !held.has(finding))
    .map((finding) => ({ finding, pieces: 1, ...fresh(finding) }));
  return raiseToSeen({ ...lot, goings: [...kept, ...added] });
}

export type GoingChange = { readonly [Name in keyof Omit<Going, 'finding'>]?: Going[Name] | undefined };

/** Set fields of one going; `undefined` takes a field away. */
export function changeGoing(lot: LotInHand, finding: string, change: GoingChange): LotInHand {
  const changed = (going: Going): Going => {
    const { finding: same, way, pieces, ...more } = { ...going, ...change };
    return {
      finding: same,
      way: way ?? going.way,
      pieces: pieces ?? going.pieces,
      ...(more.to === undefined ? {} : { to: more.to }),
      ...(more.grams === undefined ? {} : { grams: more.grams }),
    };
  };
  return raiseToSeen({
    ...lot,
    goings: lot.goings.map((going) => (going.finding === finding ? changed(going) : going)),
  });
}

/** Every piece is looked at now: the number becomes what the book says, and is set by hand where it differs. */
export function pickOverNow(lot: LotInHand, plan: LookPlan): LotInHand {
  const looked = plan.there === undefined ? lot.looked : Math.max(plan.there, lot.looked ?? 0);
  return { ...lot, pick_over: 'now', whole: true, ...(looked === undefined ? {} : { looked }) };
}

/** Back to the sample; the picking over is a chore, or is left. */
export function pickOverLater(lot: LotInHand, plan: LookPlan, choice: 'chore' | 'no'): LotInHand {
  if (lot.pick_over !== 'now') return { ...lot, pick_over: choice };
  const looked = plan.looked;
  return raiseToSeen({
    ...lot,
    pick_over: choice,
    whole: plan.whole,
    ...(looked === undefined ? {} : { looked }),
  });
}

/** What is still to be told before the lot can be kept: a going that goes nowhere yet. */
export const goesNowhere = (lot: LotInHand): Going | undefined =>
  lot.goings.find((going) => going.way !== 'left' && going.pieces > 0 && going.to === undefined);

/**
 * A sample that shows something spreading asks for the lot to be picked over: a chore unless the hand says otherwise
 * (`may_claim`: whoever is writing may take one on). Nothing spreading any more: nothing is asked.
 */
export function askPickOver(
  lot: LotInHand,
  spreads: (finding: string) => boolean,
  may_claim: boolean,
): LotInHand {
  const { pick_over, ...rest } = lot;
  if (pick_over === 'now') return lot;
  if (lot.whole || !lot.goings.some(({ finding }) => spreads(finding))) return rest;
  return { ...rest, pick_over: pick_over ?? (may_claim ? 'chore' : 'no') };
}
