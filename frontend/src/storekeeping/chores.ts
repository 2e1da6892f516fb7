/** Chores: what is open, what is done, who took it on (F19). Twin: `homestead/storekeeping/chores.py`. */
import { filled } from './amounts.ts';
import { day_text } from './days.ts';
import type { EventOf, Lot } from './lot.ts';
import { by_key, type Event } from './order.ts';
import type { ChoreDone, Claim, Offer, OpenChore } from './state.ts';
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

/** Who took each chore on, and which are free to be taken. Events are claims and offers that count. */
export function taken(events: readonly (EventOf<'claim'> | EventOf<'offer'>)[]): {
  claims: Record<string, Claim>;
  offers: Record<string, Offer>;
} {
  const claims = new Map<string, Claim>();
  const offers = new Map<string, Offer>();
  for (const event of [...events].sort(by_seq)) {
    const { chore } = event.body;
    const { person } = event.written;
    const has_it = claims.get(chore);
    const fact = { entry: event.id, person, when_ms: event.when_ms };
    if (event.kind === 'offer') {
      const gives = has_it === undefined || has_it.person === person;
      if (gives && !offers.has(chore)) offers.set(chore, fact);
    } else if (has_it === undefined || offers.has(chore)) {
      claims.set(chore, { ...fact, others: [] });
      offers.delete(chore);
    } else has_it.others.push(event.id);
  }
  return { claims: Object.fromEntries(claims), offers: Object.fromEntries(offers) };
}

function by_seq(one: Event, other: Event): number {
  return (one.seq ?? Infinity) - (other.seq ?? Infinity) || by_key(one, other);
}
