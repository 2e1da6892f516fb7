/**
 * One run: a household with two to five phones, a tape of steps, then quiet. A tape is drawn from a seed; the same
 * tape is the same run, and a shorter one is a run too, so that a failure can be shrunk.
 */
import { Acts } from './acts.ts';
import { Dice } from './dice.ts';
import { Disk, MemoryDisk } from './memory_store.ts';
import { ModelServer } from './model/server.ts';
import type { State } from './model/state.ts';
import { Phone, type PhoneDisk, type Wrapping } from './phone.ts';
import { Recording } from './recording.ts';
import { settle_all } from './quiet.ts';
import { found_household, HOUSEHOLD, PEOPLE, device_id } from './household.ts';
import { Story } from './story.ts';
import { check_status, held_by, Watch } from './watch.ts';
import type { Line as FoldLine } from '../../frontend/src/storekeeping/state.ts';
import { Network } from './network.ts';
import { Troubles, TROUBLES, type Trouble } from './troubles.ts';
import { World } from './world.ts';

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
  /** Leave out what cannot be played to the real server: an erasure, a copied store. */
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
  minutes: 3,
  sheet: 2,
  backup: 2,
  ...TROUBLES,
} as const;
type What = keyof typeof WEIGHTS;
const NOT_PLAIN: ReadonlySet<What> = new Set(['erase', 'copy_store', 'join']);

const is_trouble = (what: What): what is Trouble => what in TROUBLES;

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
  readonly acts = new Acts(this.story);
  readonly network: Network;
  readonly #troubles = new Troubles(this);
  readonly #watch: Watch;
  readonly options: Options;
  readonly dice: Dice;
  #backup: State;
  #faults = 0;
  #steps = 0;

  constructor(seed: number, options: Options) {
    this.options = options;
    this.dice = new Dice(seed ^ 0x5eed);
    this.world = new World(options.server?.() ?? new ModelServer());
    this.network = new Network(this.world, this.story, options.recording);
    this.#watch = new Watch(this.world, this.story);
    this.#backup = this.world.server.state;
  }

  /** People, spaces and phones; every phone has pulled once, so that they start from related states. */
  async begin(): Promise<void> {
    const { world } = this;
    const lines = found_household(world.server, world.now);
    const count = 2 + this.dice.below(4);
    for (let no = 0; no < count; no += 1) await this.add_phone(`phone${String(no)}`, no, no);
    this.options.recording?.found(lines, world.server.state);
    for (const phone of this.phones) {
      phone.begin_cycle();
      await this.world.settle();
    }
    await this.network.run_out();
    const first = this.phones[0];
    for (let no = 0; first && no < 2; no += 1) await this.acts.record(first, this.dice);
    await this.network.run_out();
    for (const phone of [...this.phones, ...this.phones]) {
      phone.begin_cycle();
      await this.network.run_out();
    }
    this.#back_up();
  }

  /** `place` among the household's devices; whose it is follows from that. */
  async add_phone(name: string, place: number, person: number): Promise<Phone> {
    const disk = (await this.options.disk?.(name)) ?? new MemoryDisk(new Disk());
    // The second phone is shared: two people write on it.
    const people =
      place === 1 ? [PEOPLE[1].id, PEOPLE[2].id] : [PEOPLE[person % PEOPLE.length]?.id ?? PEOPLE[0].id];
    const token = device_id(place);
    const wrapping = this.options.wrapping ?? {};
    const seed = this.dice.next();
    const phone = new Phone(this.world, token, { name, household: HOUSEHOLD, people, disk, wrapping, seed });
    await phone.let_in(this.world.server.let_in(token, people));
    await phone.start();
    this.phones.push(phone);
    return phone;
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
        return this.acts.record(phone, dice);
      case 'edit':
        return this.acts.edit(phone, dice);
      case 'strike':
        return this.acts.strike(phone, dice);
      case 'photo':
        return this.acts.photo(phone, dice);
      case 'bad':
        return this.acts.bad(phone, dice);
      case 'label':
        return this.acts.label(phone, dice, dice.pick(this.phones) ?? phone);
      case 'tray':
        return this.acts.tray(phone, dice);
      case 'role':
        return this.acts.role(this.#keeper, dice, dice.pick(PEOPLE.slice(1))?.id ?? PEOPLE[1].id);
      case 'minutes':
        return this.network.pass(60_000 * (1 + dice.below(120)));
      case 'backup':
        return this.#back_up();
      case 'sheet':
        return this.#sheet(dice.pick(['roster', 'tally/hens']) ?? 'roster');
      default:
        if (!is_trouble(what) || !(await this.#troubles.make(what, phone, dice))) return;
        this.#faults += 1;
        this.world.count(`fault: ${what}`);
    }
  }

  #back_up(): void {
    this.#backup = this.world.server.state.copy();
    this.options.recording?.events.push({ event: 'backup' });
  }

  /** Put back to the last backup. */
  restore(): void {
    this.options.recording?.events.push({ event: 'restore' });
    this.world.server.restore(this.#backup);
    this.#back_up();
  }

  #sheet(key: string): void {
    const { server, now } = this.world;
    this.world.count('sheet');
    // Always another content: an unchanged sheet would not be written anew.
    const content = { no: this.world.tally.get('sheet') ?? 0 };
    const as_of = server.state.head;
    this.options.recording?.events.push({
      event: 'sheet',
      at: new Date(now).toISOString(),
      key,
      as_of,
      content,
    });
    server.write_sheet(key, content, now);
  }

  /** Signed in or out, on the server's side. */
  sign(token: string, signed_in: boolean): void {
    const { devices } = this.world.server.state;
    const device = devices.get(token);
    if (device === undefined || device.signed_in === signed_in) return;
    devices.set(token, { ...device, signed_in });
    this.options.recording?.events.push({ event: 'signed_in', device: token, signed_in });
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
      this.network.happen(event);
      await this.world.settle();
    }
  }

  async end(length: number): Promise<Ran> {
    const summary = await settle_all(this, this.acts, this.#watch);
    return { steps: Math.min(length, this.#steps), faults: this.#faults, tally: this.world.tally, summary };
  }
}
