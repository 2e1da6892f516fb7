/**
 * Time and everything that is under way: each thing a phone waits for (a transaction to begin or to be told, a
 * request on its way, a reply on its way back) is an event in one pool. Nothing happens until a scheduler picks it.
 */
import type { Reply } from '../../frontend/src/ledger/ports.ts';
import type { Arrived, ModelServer } from './model/server.ts';
import type { Phone } from './phone.ts';

/** One running of the app on a phone: it ends when the phone is restarted, and all it waits for with it. */
export interface Life {
  readonly phone: Phone;
  alive: boolean;
}

interface Waiting {
  readonly no: number;
  readonly life: Life;
}
export interface TurnEvent extends Waiting {
  readonly what: 'begin' | 'told';
  readonly go: () => void;
}
export interface RequestEvent extends Waiting {
  readonly what: 'request';
  readonly arrived: Arrived;
  /** A second copy of a request that arrived already: nobody waits for its answer. */
  readonly repeated: boolean;
  readonly answer: (reply: Reply | undefined) => void;
}
export interface ReplyEvent extends Waiting {
  readonly what: 'reply';
  readonly path: string;
  readonly reply: Reply;
  readonly token?: string;
  readonly answer: (reply: Reply | undefined) => void;
}
export type Event = TurnEvent | RequestEvent | ReplyEvent;
type New<E extends Event> = Omit<E, 'no'>;

export class World {
  now = Date.UTC(2026, 9, 1, 8);
  readonly server: ModelServer;
  readonly events: Event[] = [];
  /** Counts of what happened: faults, receipts, resets. */
  readonly tally = new Map<string, number>();
  /** What broke a phone's own code: never to be. */
  readonly errors: unknown[] = [];
  #next_no = 1;
  /** Transactions of a real database that run at this moment. */
  busy = 0;

  constructor(server: ModelServer) {
    this.server = server;
  }

  count(what: string, by = 1): void {
    this.tally.set(what, (this.tally.get(what) ?? 0) + by);
  }

  add(event: New<TurnEvent> | New<RequestEvent> | New<ReplyEvent>): void {
    const no = this.#next_no;
    this.#next_no += 1;
    this.events.push({ ...event, no } as Event);
  }

  take(event: Event): void {
    const at = this.events.indexOf(event);
    if (at >= 0) this.events.splice(at, 1);
  }

  /** Nothing a dead life waits for ever comes; its requests may still arrive. */
  drop_dead(): void {
    const alive = this.events.filter((event) => event.life.alive || event.what === 'request');
    this.events.splice(0, this.events.length, ...alive);
  }

  /** Let everything run that can run without another event. */
  async settle(): Promise<void> {
    do await new Promise((resolve) => setImmediate(resolve));
    while (this.busy > 0);
  }
}
