/** Chores: what is open, what is done, who took it on (F19). Twin: `homestead/storekeeping/chores.py`. */
import { filled } from './amounts.ts';
import { day_text } from './days.ts';
import type { EventOf, Lot } from './lot.ts';
import { by_key } from './order.ts';
import type { ChoreDone, Claim, OpenChore } from './state.ts';
import { standing_decision, state_of } from './suspects.ts';

/** Standing decisions of a lot that are to be carried out; the key is the decision's id. */
export function open_chores(lot: Lot): OpenChore[] {
  const open: OpenChore[] = [];
  for (const doubt of lot.suspects.values()) {
    const decided = standing_decision(doubt);
    if (decided === null || state_of(doubt) !== 'to_do') continue;
    const { body } = decided.event;
    open.push({
      key: decided.event.id,
      lot: lot.id,
      suspect: doubt.event.id,
      do: body.do,
      animals: body.animals ?? null,
      doer: body.doer ?? null,
      by: body.by ?? null,
      ...filled(doubt.pieces, doubt.grams, lot.ratio),
    });
  }
  return open;
}

/** The first of each key by F2. shown_only: ids of those that came second or too late for a suspect. */
export function chores_done(
  events: readonly EventOf<'chore_done'>[],
  shown_only: ReadonlySet<string>,
): Record<string, ChoreDone> {
  const done = new Map<string, ChoreDone>();
  const others: EventOf<'chore_done'>[] = [];
  for (const event of [...events].sort(by_key)) {
    if (done.has(event.body.chore) || shown_only.has(event.id)) {
      others.push(event);
      continue;
    }
    done.set(event.body.chore, {
      entry: event.id,
      person: event.written.person,
      when_ms: event.when_ms,
      day: day_text(event.day),
      minutes: event.body.minutes ?? null,
      others: [],
    });
  }
  for (const event of others) done.get(event.body.chore)?.others.push(event.id);
  return Object.fromEntries(done);
}

/** The lower `seq` wins; those not sent yet come after, by F2. */
export function claims(events: readonly EventOf<'claim'>[]): Record<string, Claim> {
  const won = new Map<string, Claim>();
  for (const event of [...events].sort(by_seq)) {
    const claim = won.get(event.body.chore);
    if (claim !== undefined) {
      claim.others.push(event.id);
      continue;
    }
    const { person } = event.written;
    won.set(event.body.chore, { entry: event.id, person, when_ms: event.when_ms, others: [] });
  }
  return Object.fromEntries(won);
}

function by_seq(one: EventOf<'claim'>, other: EventOf<'claim'>): number {
  return (one.seq ?? Infinity) - (other.seq ?? Infinity) || by_key(one, other);
}
