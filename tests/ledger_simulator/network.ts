/** The way between phones and server, and all that is under way on it: nothing moves but what is picked. */
import type { Recording } from './recording.ts';
import type { Dice } from './dice.ts';
import type { Phone } from './phone.ts';
import type { Story } from './story.ts';
import { hold } from './watch.ts';
import type { Event, ReplyEvent, RequestEvent, World } from './world.ts';

export class Network {
  readonly #world: World;
  readonly #story: Story;
  readonly #recording: Recording | undefined;

  constructor(world: World, story: Story, recording: Recording | undefined) {
    this.#world = world;
    this.#story = story;
    this.#recording = recording;
  }

  /** Everything under way comes to its end, in order. */
  async run_out(): Promise<void> {
    await this.#world.settle();
    for (let event = this.#world.events[0]; event !== undefined; event = this.#world.events[0]) {
      this.happen(event);
      await this.#world.settle();
    }
  }

  /** All that concerns this phone and may happen, in order, until nothing of it is left. */
  async run_phone(phone: Phone, may: (event: Event) => boolean): Promise<void> {
    for (;;) {
      const own = this.#world.events.find((event) => event.life.phone === phone && may(event));
      if (own === undefined) return;
      this.happen(own);
      await this.#world.settle();
    }
  }

  /** Requests do not wait for hours: a time-out has ended them, and so has their second copy. */
  pass(ms: number): void {
    this.#world.now += ms;
    for (const event of this.#world.events.filter((one) => one.what === 'request' || one.what === 'reply')) {
      this.#world.take(event);
      if (event.what !== 'request' || !event.repeated) event.answer(undefined);
    }
  }

  pick<W extends 'request' | 'reply'>(
    what: W,
    dice: Dice,
    act: (event: Extract<Event, { what: W }>) => void,
  ): boolean {
    const found = this.#world.events.filter(
      (event): event is Extract<Event, { what: W }> => event.what === what && event.life.alive,
    );
    const event = dice.pick(found);
    if (event === undefined) return false;
    this.#world.take(event);
    act(event);
    return true;
  }

  happen(event: Event): void {
    this.#world.take(event);
    if (event.what === 'request') return this.arrive(event);
    if (!event.life.alive) return;
    if (event.what === 'reply') this.#deliver(event);
    else event.go();
  }

  arrive(event: RequestEvent): void {
    const { arrived, life, answer, repeated } = event;
    const { request, token } = arrived;
    const answered = this.#world.server.answer({ request, token }, this.#world.now);
    this.#recording?.asked(arrived, answered, this.#world.now);
    this.#note_answer(request.method, answered.reply.status, request.path);
    this.#note_receipts(request.path, answered.reply.text);
    if (request.path === '/api/v1/sync/push') this.#note_skews(String(request.body));
    if (repeated || !life.alive) return;
    const cookie = answered.token === undefined ? {} : { token: answered.token };
    this.#world.add({ what: 'reply', life, path: request.path, reply: answered.reply, answer, ...cookie });
  }

  /** 21: a line brought back keeps a skew it once had, so that nothing changes place. */
  #note_skews(pushed: string): void {
    const { lines } = JSON.parse(pushed) as {
      lines: readonly { written: { id: string }; recovered?: { clock_skew_ms: number } }[];
    };
    for (const { written, recovered } of lines) {
      const known = this.#story.skews.get(written.id);
      const had = recovered === undefined || known === undefined || known.has(recovered.clock_skew_ms);
      hold(21, had, () => `${written.id} comes back with a skew it never had`);
      const kept = this.#world.server.state.lines.get(written.id);
      if (kept) this.#story.skews.set(written.id, new Set(known).add(kept.clock_skew_ms));
    }
  }

  #note_answer(method: string, status: number, path: string): void {
    if (status === 409) this.#world.count('reset met');
    if (status === 413) this.#world.count('too large met');
    if (status === 401) this.#world.count('signed out met');
    if (method === 'PUT' && status === 201) this.#world.count('photo taken in');
    if (path === '/api/v1/sync/missing') this.#world.count('missing lines asked for');
  }

  /** A reply sets its cookie whatever becomes of the page that waits for it. */
  #deliver(event: ReplyEvent): void {
    if (event.token !== undefined) event.life.phone.token = event.token;
    event.answer(event.reply);
  }

  #note_receipts(path: string, text: string): void {
    if (path !== '/api/v1/sync/push') return;
    const { receipts, renew } = JSON.parse(text) as {
      renew?: unknown;
      receipts?: readonly { id: string; result: string; code?: string; conflicts?: readonly unknown[] }[];
    };
    if (renew !== undefined) this.#world.count('phone renewed');
    for (const { id, result, code, conflicts } of receipts ?? []) {
      this.#world.count(`receipt: ${result}${code === undefined ? '' : ` ${code}`}`);
      if (conflicts !== undefined && conflicts.length > 0) this.#world.count('edit in conflict');
      if (result === 'refused') this.#story.out_of_order.add(id);
      else this.#story.receipted.add(id);
    }
  }
}
