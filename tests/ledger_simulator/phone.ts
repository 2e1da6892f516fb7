/** A simulated phone: the real client core on a disk that outlives restarts, with store, network and clock in the scheduler's hands. */
import { run_cycle, type Ended } from '../../frontend/src/ledger/cycle.ts';
import type { Deps } from '../../frontend/src/ledger/deps.ts';
import { write_let_in } from '../../frontend/src/ledger/entering.ts';
import { id_mint } from '../../frontend/src/ledger/ids.ts';
import type { Reply, Request, Transport } from '../../frontend/src/ledger/ports.ts';
import type { Row, Store, StoreName } from '../../frontend/src/ledger/store.ts';
import type { Id } from '../../frontend/src/wire/written.ts';
import { Dice } from './dice.ts';
import type { Life, World } from './world.ts';

/** A disk: rows to look at, and a store to write them. */
export interface PhoneDisk {
  /** `turn` waits for the scheduler: for a store that is not as whole as it should be. */
  open(turn: () => Promise<void>): Promise<Store>;
  rows<S extends StoreName>(store: S): Promise<readonly Row<S>[]>;
  copy(name: string): Promise<PhoneDisk>;
}

/** Ways of making a phone wrong on purpose, put around its network by the tests. */
export interface Wrapping {
  readonly transport?: (transport: Transport, phone: Phone) => Transport;
}

export interface PhoneOptions {
  readonly name: string;
  readonly household: Id;
  readonly people: readonly Id[];
  readonly disk: PhoneDisk;
  readonly wrapping: Wrapping;
  readonly seed: number;
}

export class Phone {
  readonly name: string;
  readonly people: readonly Id[];
  readonly household: Id;
  readonly disk: PhoneDisk;
  readonly world: World;
  /** Phone less true time. */
  skew_ms = 0;
  /** The cookie: what the server knows this phone by. */
  token: Id;
  life: Life;
  /** Cycles of windows that are open. */
  cycles = 0;
  readonly ends: Ended[] = [];
  readonly #dice: Dice;
  readonly #wrapping: Wrapping;
  deps: Deps | undefined;

  constructor(world: World, token: Id, options: PhoneOptions) {
    this.world = world;
    this.token = token;
    this.name = options.name;
    this.household = options.household;
    this.people = options.people;
    this.disk = options.disk;
    this.#wrapping = options.wrapping;
    this.#dice = new Dice(options.seed);
    this.life = { phone: this, alive: false };
  }

  /** Let in by the server: the first thing written on the disk. */
  async let_in(codes: { readonly from: number; readonly to: number }): Promise<void> {
    const { household, token: device, people } = this;
    const store = await this.disk.open(async () => undefined);
    await write_let_in(store, {
      household,
      name: '',
      device,
      people,
      demo: false,
      minder: false,
      last_no: 0,
      codes,
    });
    store.close();
  }

  /** Start the app: what ran before is gone. */
  async start(): Promise<void> {
    this.life.alive = false;
    this.world.drop_dead();
    this.cycles = 0;
    const life: Life = { phone: this, alive: true };
    this.life = life;
    const clock = { now: () => this.world.now + this.skew_ms, offset_minutes: () => 60 };
    const random = {
      bytes: (count: number) => this.#dice.bytes(count),
      share: () => this.#dice.below(1000) / 1000,
    };
    const store = paced(await this.disk.open(waits_for_turn(life, this.world)), life, this.world);
    this.deps = { household: this.household, store, clock, random, mint_id: id_mint(clock, random) };
  }

  get core(): Deps {
    if (this.deps === undefined) throw new Error('the phone is not on');
    return this.deps;
  }

  /** One cycle of the exchange in one window. */
  begin_cycle(): void {
    const { life } = this;
    const { store, clock } = this.core;
    const plain: Transport = { send: (request) => this.#send(life, request) };
    const transport = this.#wrapping.transport?.(plain, this) ?? plain;
    this.cycles += 1;
    const cycle = run_cycle({
      store,
      clock,
      transport,
      build: '1',
      cut: () => false,
      may_ask_codes: () => true,
      changed: () => undefined,
    });
    cycle.then(
      (ended) => {
        if (life.alive) this.cycles -= 1;
        this.ends.push(ended);
        this.world.count(`cycle ${ended.kind}`);
      },
      (error: unknown) => this.world.errors.push(error),
    );
  }

  #send(life: Life, request: Request): Promise<Reply | undefined> {
    return new Promise((resolve) => {
      if (!life.alive) return;
      const arrived = { request, token: this.token };
      this.world.add({ what: 'request', life, arrived, repeated: false, answer: resolve });
    });
  }
}

/** Each transaction waits for its turn to begin, and once more before its writer hears that it is complete. */
function paced(store: Store, life: Life, world: World): Store {
  const inner = counting(store, world);
  return {
    read: (stores, work) => inner.read(stores, work),
    async write(stores, work, firm) {
      await waits_for_turn(life, world)();
      const result = await inner.write(stores, work, firm);
      await waits_for_turn(life, world, 'told')();
      return result;
    },
    close: () => inner.close(),
  };
}

/** Of a life that ended the turn never comes. */
const waits_for_turn =
  (life: Life, world: World, what: 'begin' | 'told' = 'begin') =>
  (): Promise<void> =>
    new Promise((go) => {
      if (life.alive) world.add({ what, life, go });
    });

function counting(store: Store, world: World): Store {
  const counted = async <T>(act: () => Promise<T>): Promise<T> => {
    world.busy += 1;
    try {
      return await act();
    } finally {
      world.busy -= 1;
    }
  };
  return {
    read: (stores, work) => counted(() => store.read(stores, work)),
    write: (stores, work, firm) => counted(() => store.write(stores, work, firm)),
    close: () => store.close(),
  };
}
