/**
 * Suspects, what was decided about them, and the chores that follow (F19).
 *
 * Twin: `homestead/storekeeping/suspects.py`.
 */
import { type Both, filled } from './amounts.ts';
import { clear_seen, out } from './leaving.ts';
import { type Decided, type Doubt, type EventOf, type Lot, row } from './lot.ts';
import type { Event } from './order.ts';
import type { Do, Step } from './shapes.ts';
import type { SuspectState } from './state.ts';

/** The lower, the further to the right. */
const LOWER: readonly Do[] = ['keep', 'use_first', 'trim', 'raw', 'cook', 'pot', 'animals', 'compost', 'bin'];

export function suspect(lot: Lot, event: EventOf<'suspect'>): void {
  const { pieces = 1, grams = null } = event.body;
  lot.suspects.set(event.id, { event, pieces, grams, decisions: [], gone: false, closed: false });
}

export function decision(lot: Lot, event: EventOf<'decision'>): void {
  const doubt = lot.suspects.get(event.body.suspect);
  if (doubt === undefined) return;
  const decided: Decided = { event, done: false };
  doubt.decisions.push(decided);
  const told = event.body.out;
  if (doubt.closed) {
    lot.only_show(event, 'after_finish');
  } else if (told !== undefined && doubt.gone) {
    lot.only_show(event, 'second');
  } else if (told !== undefined) {
    doubt.gone = decided.done = true;
    out(lot, event, told);
  }
}

/** The first one counts; a second, or one after the lot was finished, is only shown. */
export function chore_done(lot: Lot, event: EventOf<'chore_done'>): void {
  const found = decided_of(lot, event.body.chore);
  if (found === undefined) return;
  const { doubt, decided } = found;
  const told = event.body.out;
  if (doubt.closed) {
    lot.only_show(event, 'after_finish');
  } else if (doubt.gone) {
    lot.only_show(event, 'second');
  } else if (told !== undefined) {
    doubt.gone = decided.done = true;
    out(lot, event, told);
  } else if (decided.event.body.do === 'keep') {
    lot.only_show(event, 'nothing_there');
  } else {
    doubt.gone = decided.done = true;
    suspect_leaves(lot, event, doubt, decided);
  }
}

function decided_of(lot: Lot, key: string): { doubt: Doubt; decided: Decided } | undefined {
  for (const doubt of lot.suspects.values()) {
    const decided = doubt.decisions.find((each) => each.event.id === key);
    if (decided !== undefined) return { doubt, decided };
  }
  return undefined;
}

/** Done as decided, with no more words: the suspect's amount goes to the decision's step. */
function suspect_leaves(lot: Lot, event: Event, doubt: Doubt, decided: Decided): void {
  const { body } = decided.event;
  const { findings } = doubt.event.body;
  if (lot.own_measure === 'grams' && doubt.grams === null) lot.counted_well = false;
  const { pieces, grams } = filled(doubt.pieces, doubt.grams, lot.ratio);
  lot.lower(pieces, grams);
  const went = body.animals === undefined ? {} : { animals: body.animals };
  lot.rows.push(row(event, step_of(body.do), pieces, grams, went, findings));
  clear_seen(lot, findings, pieces);
}

function step_of(decided: Do): Step {
  return decided === 'keep' || decided === 'use_first' || decided === 'trim' ? 'cook' : decided;
}

/** Of several the lowest stands; of equal ones the first. */
export function standing_decision(doubt: Doubt): Decided | null {
  let lowest: Decided | null = null;
  for (const decided of doubt.decisions) {
    if (lowest === null || rank(decided) > rank(lowest)) lowest = decided;
  }
  return lowest;
}

function rank(decided: Decided): number {
  return LOWER.indexOf(decided.event.body.do);
}

/** `open` undecided, `kept`, `to_do` the chore is open, `gone` it left, `closed` its lot was finished. */
export function state_of(doubt: Doubt): SuspectState['state'] {
  if (doubt.gone) return 'gone';
  if (doubt.closed) return 'closed';
  const standing = standing_decision(doubt);
  if (standing === null) return 'open';
  return standing.event.body.do === 'keep' ? 'kept' : 'to_do';
}

/** F13: pieces and grams of suspects neither kept nor gone: stock, no food. */
export function held(lot: Lot): Both {
  let pieces: number | null = 0;
  let grams: number | null = 0;
  for (const doubt of lot.suspects.values()) {
    const state = state_of(doubt);
    if (state !== 'open' && state !== 'to_do') continue;
    const its = filled(doubt.pieces, doubt.grams, lot.ratio);
    pieces = pieces === null || its.pieces === null ? null : pieces + its.pieces;
    grams = grams === null || its.grams === null ? null : grams + its.grams;
  }
  return { pieces, grams };
}
