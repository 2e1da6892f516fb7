/**
 * One run: a household with two to five phones, a tape of steps, then quiet. A tape is drawn from a seed; the same
 * tape is the same run, and a shorter one is a run too, so that a failure can be shrunk.
 */
import { Acts } from './acts.ts';
import { Dice } from './dice.ts';
import { cut_off, unknown_answer } from './faults.ts';
import { Disk, MemoryDisk } from './memory_store.ts';
import { ModelServer } from './model/server.ts';
import type { State } from './model/state.ts';
import { Phone, type PhoneDisk, type Wrapping } from './phone.ts';
import { Recording } from './recording.ts';
import { settle_all } from './quiet.ts';
import { found_household, HOUSEHOLD, PEOPLE, device_id } from './household.ts';
import { Story } from './story.ts';
import { check_status, fingerprint, held_by, hold, Watch } from './watch.ts';
import type { Line as FoldLine } from '../../frontend/src/storekeeping/state.ts';
import { World, type Event, type ReplyEvent, type RequestEvent } from './world.ts';

/** What is done, and the dice for its details. */
export type Step = readonly [what: number, seed: number];
export type Tape = readonly Step[];

export interface Options {
  readonly disk?: (name: string) => Promise<PhoneDisk>;
  readonly server?: () => ModelServer;
  readonly wrapping?: Wrapping;
  /** What a phone folds, of the lines it holds and the order in which they came to it. */
  readonly fold_input?: (lines: readonly FoldLine[], arrived: readonly string[]) => readonly FoldLine[];
  readonly recording?: Recording;
  /** Leave out what cannot be played to the real server: a restore, an erasure, a copied store. */
  readonly plain?: boolean;
  /** Check the invariants after every so many steps. */
  readonly check_every?: number;
}

/** How a run went: counts, and a text in which everything that came of it stands. */
export interface Ran {
  readonly steps: number;
  readonly faults: number;
  readonly tally: ReadonlyMap<string, number>;
  readonly summary: string;
}

const STEPS = 90;

export function tape_of(seed: number): Tape {
  const dice = new Dice(seed);
  return Array.from({ length: STEPS + dice.below(60) }, () => [dice.next(), dice.next()] as const);
}

const WEIGHTS = {
  go: 34,
  cycle: 14,
  record: 12,
  edit: 5,
  strike: 5,
  photo: 3,
  bad: 3,
  label: 2,
  tray: 5,
  role: 2,
  lose_request: 3,
  repeat: 3,
  unknown_answer: 5,
  lose_reply: 4,
  cut_reply: 2,
  small_proxy: 1,
  restart: 4,
  skew: 2,
  minutes: 3,
  days: 1,
  sheet: 2,
  backup: 2,
  restore: 2,
  erase: 1,
  sign_out: 1,
  copy_store: 1,
} as const;
type What = keyof typeof WEIGHTS;
const FAULTS: ReadonlySet<What> = new Set([
  'lose_request',
  'repeat',
  'unknown_answer',
  'lose_reply',
  'cut_reply',
  'small_proxy',
  'restart',
  'skew',
  'days',
  'restore',
  'erase',
  'sign_out',
  'copy_store',
]);
const NOT_PLAIN: ReadonlySet<What> = new Set(['restore', 'erase', 'copy_store', 'sheet']);

export async function run(seed: number, tape: Tape, options: Options = {}): Promise<Ran> {
  const simulation = new Simulation(seed, options);
  await simulation.begin();
  for (const step of tape) await simulation.step(step);
  return simulation.end(tape.length);
}

export class Simulation {
  readonly world: World;
  readonly story = new Story();
  readonly phones: Phone[] = [];
  readonly #acts = new Acts(this.story);
  readonly #watch: Watch;
  readonly options: Options;
  readonly #dice: Dice;
  #backup: State;
  #faults = 0;
  #steps = 0;

  constructor(seed: number, options: Options) {
    this.options = options;
    this.#dice = new Dice(seed ^ 0x5eed);
    this.world = new World(options.server?.() ?? new ModelServer());
    this.#watch = new Watch(this.world, this.story);
    this.#backup = this.world.server.state;
  }

  /** People, spaces and phones; every phone has pulled once, so that they start from related states. */
  async begin(): Promise<void> {
    const { world } = this;
    const lines = found_household(world.server, world.now);
    const count = 2 + this.#dice.below(4);
    for (let no = 0; no < count; no += 1) await this.#add_phone(no);
    this.options.recording?.found(lines, world.server.state);
    for (const phone of this.phones) {
      phone.begin_cycle();
      await this.world.settle();
    }
    await this.run_out();
    const first = this.phones[0];
    for (let no = 0; first && no < 2; no += 1) await this.#acts.record(first, this.#dice);
    await this.run_out();
    for (const phone of [...this.phones, ...this.phones]) {
      phone.begin_cycle();
      await this.run_out();
    }
    this.#backup = world.server.state.copy();
  }

  async #add_phone(no: number): Promise<void> {
    const name = `phone${String(no)}`;
    const disk = (await this.options.disk?.(name)) ?? new MemoryDisk(new Disk());
    // The second phone is shared: two people write on it.
    const people = no === 1 ? [PEOPLE[1].id, PEOPLE[2].id] : [PEOPLE[no % PEOPLE.length]?.id ?? PEOPLE[0].id];
    const token = device_id(no);
    const wrapping = this.options.wrapping ?? {};
    const phone = new Phone(this.world, token, {
      name,
      household: HOUSEHOLD,
      people,
      disk,
      wrapping,
      seed: this.#dice.next(),
    });
    await phone.let_in(this.world.server.let_in(token, people));
    await phone.start();
    this.phones.push(phone);
  }

  async step([choice, seed]: Step): Promise<void> {
    const dice = new Dice(seed);
    const what = new Dice(choice).weighted(WEIGHTS);
    const phone = dice.pick(this.phones);
    if (phone === undefined || (this.options.plain === true && NOT_PLAIN.has(what))) return;
    this.#steps += 1;
    this.world.now += dice.below(1500);
    await this.#do(what, phone, dice);
    await this.world.settle();
    if (this.#steps % (this.options.check_every ?? 1) !== 0) return;
    await this.#watch.step(this.phones);
    if (dice.chance(0.1)) await check_status(phone, await held_by(phone));
  }

  async #do(what: What, phone: Phone, dice: Dice): Promise<void> {
    switch (what) {
      case 'go':
        return this.#go(1 + dice.below(10), dice);
      case 'cycle':
        if (phone.cycles < 2) phone.begin_cycle();
        await this.world.settle();
        return this.#go(dice.below(4), dice);
      case 'record':
        return this.#acts.record(phone, dice);
      case 'edit':
        return this.#acts.edit(phone, dice);
      case 'strike':
        return this.#acts.strike(phone, dice);
      case 'photo':
        return this.#acts.photo(phone, dice);
      case 'bad':
        return this.#acts.bad(phone, dice);
      case 'label':
        return this.#acts.label(phone, dice, dice.pick(this.phones) ?? phone);
      case 'tray':
        return this.#acts.tray(phone, dice);
      case 'role':
        return this.#acts.role(this.#keeper, dice, dice.pick(PEOPLE.slice(1))?.id ?? PEOPLE[1].id);
      default:
        if (FAULTS.has(what) && (await this.#fault(what, phone, dice))) {
          this.#faults += 1;
          this.world.count(`fault: ${what}`);
        } else if (!FAULTS.has(what)) {
          this.#elsewhere(what, dice);
        }
    }
  }

  #elsewhere(what: What, dice: Dice): void {
    const { server } = this.world;
    if (what === 'minutes') this.#pass(60_000 * (1 + dice.below(120)));
    if (what === 'backup') this.#backup = server.state.copy();
    if (what === 'sheet') {
      server.write_sheet(
        dice.pick(['roster', 'tally/hens']) ?? 'roster',
        { due: dice.below(9) },
        this.world.now,
      );
      this.world.count('sheet');
    }
  }

  /** True when it could be done. */
  async #fault(what: What, phone: Phone, dice: Dice): Promise<boolean> {
    const { server } = this.world;
    switch (what) {
      case 'lose_request':
        return this.#with('request', dice, (event) => event.answer(undefined));
      case 'repeat':
        return this.#with('request', dice, (event) => {
          this.#arrive(event);
          this.world.add({ ...event, repeated: true });
        });
      case 'unknown_answer':
        return this.#unknown_answer(dice);
      case 'lose_reply':
        return this.#with('reply', dice, (event) => event.answer(undefined));
      case 'cut_reply':
        return this.#with('reply', dice, (event) => event.answer(cut_off(event.reply)));
      case 'small_proxy':
        server.most_lines = server.most_lines === 200 ? 1 + dice.below(3) : 200;
        return true;
      case 'restart':
        await phone.start();
        return true;
      case 'skew':
        phone.skew_ms = dice.pick([0, 90_000, -3 * 86_400_000, 730 * 86_400_000, 3_600_000]) ?? 0;
        return true;
      case 'days':
        this.#pass(86_400_000 * (1 + dice.below(20)));
        return true;
      case 'restore':
        server.restore(this.#backup);
        this.#backup = server.state.copy();
        return true;
      case 'erase':
        return this.#erase(dice);
      case 'sign_out':
        return this.#sign_out(phone);
      default:
        return this.#copy_store(phone);
    }
  }

  /** Requests do not wait for hours: a time-out has ended them, and so has their second copy. */
  #pass(ms: number): void {
    this.world.now += ms;
    for (const event of this.world.events.filter((one) => one.what === 'request' || one.what === 'reply')) {
      this.world.take(event);
      if (event.what !== 'request' || !event.repeated) event.answer(undefined);
    }
  }

  #with<W extends 'request' | 'reply'>(
    what: W,
    dice: Dice,
    act: (event: Extract<Event, { what: W }>) => void,
  ): boolean {
    const found = this.world.events.filter(
      (event): event is Extract<Event, { what: W }> => event.what === what && event.life.alive,
    );
    const event = dice.pick(found);
    if (event === undefined) return false;
    this.world.take(event);
    act(event);
    return true;
  }

  /** Invariant 15: whatever it is, the phone is as it was before. */
  async #unknown_answer(dice: Dice): Promise<boolean> {
    const waiting = this.world.events.filter(
      (event): event is RequestEvent => event.what === 'request' && event.life.alive && !event.repeated,
    );
    const event = dice.pick(waiting);
    if (event === undefined) return false;
    const { phone } = event.life;
    if (phone.cycles !== 1 || this.world.events.some((one) => one.life.phone === phone && one !== event))
      return false;
    const before = await fingerprint(phone);
    const { name, reply } = unknown_answer(dice);
    this.world.count(`answer: ${name}`);
    this.world.take(event);
    event.answer(reply);
    await this.world.settle();
    await this.#let_run(phone);
    const after = await fingerprint(phone);
    hold(15, before === after, () => `${phone.name} was changed by ${name}`);
    return true;
  }

  /** Only what this phone does by itself, to the end of its cycle. */
  async #let_run(phone: Phone): Promise<void> {
    for (;;) {
      const own = this.world.events.find(
        (event) => event.life.phone === phone && (event.what === 'begin' || event.what === 'told'),
      );
      if (own === undefined) return;
      this.#happen(own);
      await this.world.settle();
    }
  }

  #erase(dice: Dice): boolean {
    const kinds = new Set(['take', 'reading', 'inspection', 'count']);
    const lines = [...this.world.server.state.lines.values()].filter((line) => kinds.has(line.written.kind));
    const line = dice.pick(lines);
    if (line === undefined) return false;
    this.world.server.erase(line.written.id);
    this.story.erased.add(line.written.id);
    return true;
  }

  #sign_out(phone: Phone): boolean {
    const { devices } = this.world.server.state;
    const device = devices.get(phone.token);
    if (device) devices.set(phone.token, { ...device, signed_in: !device.signed_in });
    return device !== undefined;
  }

  /** A backup of the phone is put back on another one: same store, same cookie. */
  async #copy_store(phone: Phone): Promise<boolean> {
    if (this.phones.length > 5 || this.phones.some((one) => one.name.endsWith('copy'))) return false;
    const name = `${phone.name}copy`;
    const disk = await phone.disk.copy(name);
    const { people, household, token } = phone;
    const wrapping = this.options.wrapping ?? {};
    const copy = new Phone(this.world, token, {
      name,
      household,
      people,
      disk,
      wrapping,
      seed: this.#dice.next(),
    });
    await copy.start();
    this.phones.push(copy);
    for (const key of this.story.settled) {
      if (key.startsWith(`${phone.name} `))
        this.story.settled.add(`${name} ${key.slice(phone.name.length + 1)}`);
    }
    return true;
  }

  get #keeper(): Phone {
    const [keeper] = this.phones;
    if (keeper === undefined) throw new Error('no phone');
    return keeper;
  }

  async #go(count: number, dice: Dice): Promise<void> {
    for (let no = 0; no < count; no += 1) {
      const event = dice.pick(this.world.events);
      if (event === undefined) return;
      this.#happen(event);
      await this.world.settle();
    }
  }

  /** Everything under way comes to its end, in order. */
  async run_out(): Promise<void> {
    await this.world.settle();
    for (let event = this.world.events[0]; event !== undefined; event = this.world.events[0]) {
      this.#happen(event);
      await this.world.settle();
    }
  }

  #happen(event: Event): void {
    this.world.take(event);
    if (event.what === 'request') return this.#arrive(event);
    if (!event.life.alive) return;
    if (event.what === 'reply') this.#deliver(event);
    else event.go();
  }

  #arrive(event: RequestEvent): void {
    const { arrived, life, answer, repeated } = event;
    const { request, token } = arrived;
    const answered = this.world.server.answer({ request, token }, this.world.now);
    this.options.recording?.exchange(arrived, answered, this.world.now);
    this.#note_answer(request.method, answered.reply.status, request.path);
    this.#note_receipts(request.path, answered.reply.text);
    if (repeated || !life.alive) return;
    const cookie = answered.token === undefined ? {} : { token: answered.token };
    this.world.add({ what: 'reply', life, path: request.path, reply: answered.reply, answer, ...cookie });
  }

  #note_answer(method: string, status: number, path: string): void {
    if (status === 409) this.world.count('reset met');
    if (status === 413) this.world.count('too large met');
    if (status === 401) this.world.count('signed out met');
    if (method === 'PUT' && status === 201) this.world.count('photo taken in');
    if (path === '/api/v1/sync/missing') this.world.count('missing lines asked for');
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
    if (renew !== undefined) this.world.count('phone renewed');
    for (const { id, result, code, conflicts } of receipts ?? []) {
      this.world.count(`receipt: ${result}${code === undefined ? '' : ` ${code}`}`);
      if (conflicts !== undefined && conflicts.length > 0) this.world.count('edit in conflict');
      if (result === 'refused') this.story.out_of_order.add(id);
      else this.story.receipted.add(id);
    }
  }

  async end(length: number): Promise<Ran> {
    const summary = await settle_all(this, this.#acts, this.#watch);
    return { steps: Math.min(length, this.#steps), faults: this.#faults, tally: this.world.tally, summary };
  }
}
