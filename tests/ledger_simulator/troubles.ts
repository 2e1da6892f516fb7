/** Everything that may go wrong, done on purpose. */
import { Dice } from './dice.ts';
import { cut_off, unknown_answer } from './faults.ts';
import { Phone } from './phone.ts';
import type { Simulation } from './simulation.ts';
import { fingerprint, hold } from './watch.ts';
import type { RequestEvent } from './world.ts';

/** How often each is tried, beside all other steps. */
export const TROUBLES = {
  lose_request: 3,
  repeat: 3,
  unknown_answer: 5,
  lose_reply: 4,
  cut_reply: 2,
  small_proxy: 1,
  restart: 4,
  skew: 2,
  days: 1,
  restore: 2,
  restore_under_way: 2,
  erase: 1,
  sign_out: 1,
  copy_store: 1,
  join: 1,
} as const;
export type Trouble = keyof typeof TROUBLES;

export class Troubles {
  readonly #simulation: Simulation;

  constructor(simulation: Simulation) {
    this.#simulation = simulation;
  }

  /** True when it could be done. */
  async make(what: Trouble, phone: Phone, dice: Dice): Promise<boolean> {
    const { network, world } = this.#simulation;
    const { server } = world;
    switch (what) {
      case 'lose_request':
        return network.pick('request', dice, (event) => event.answer(undefined));
      case 'repeat':
        return network.pick('request', dice, (event) => {
          network.arrive(event);
          world.add({ ...event, repeated: true });
        });
      case 'unknown_answer':
        return this.#unknown_answer(dice);
      case 'lose_reply':
        return network.pick('reply', dice, (event) => event.answer(undefined));
      case 'cut_reply':
        return network.pick('reply', dice, (event) => event.answer(cut_off(event.reply)));
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
        // hazard 13: a phone may be away for a year, and nothing has expired.
        network.pass(86_400_000 * (dice.chance(0.2) ? 400 : 1 + dice.below(20)));
        return true;
      case 'restore':
        this.#simulation.restore();
        return true;
      case 'restore_under_way':
        return this.#restore_under_way(dice);
      case 'erase':
        return this.#erase(dice);
      case 'sign_out':
        return this.#sign_out(phone);
      case 'copy_store':
        return this.#copy_store(phone);
      case 'join':
        return this.#join(dice);
    }
  }

  /** A reply is on its way, the server is put back, and another window of that phone meets it first. */
  async #restore_under_way(dice: Dice): Promise<boolean> {
    const { network, world } = this.#simulation;
    const replies = world.events.filter(
      (event) => event.what === 'reply' && event.life.alive && event.life.phone.cycles < 2,
    );
    const reply = dice.pick(replies);
    if (reply === undefined) return false;
    this.#simulation.restore();
    reply.life.phone.begin_cycle();
    await world.settle();
    await network.run_phone(reply.life.phone, (event) => event !== reply);
    return true;
  }

  /** A phone that is let in, writes and sends, and has not pulled yet; the server may be put back before it does. */
  async #join(dice: Dice): Promise<boolean> {
    const { network, world, phones, acts } = this.#simulation;
    if (phones.some((one) => one.name === 'newcomer')) return false;
    const phone = await this.#simulation.add_phone('newcomer', 20, 1);
    const other = dice.pick(phones.filter((one) => one !== phone));
    if (other) await acts.label(phone, dice, other);
    await world.settle();
    await network.run_phone(phone, () => true);
    phone.begin_cycle();
    await world.settle();
    await network.run_phone(
      phone,
      (event) => event.what !== 'request' || !event.arrived.request.path.includes('/pull'),
    );
    if (dice.chance(0.5)) this.#simulation.restore();
    return true;
  }

  /** Invariant 15: whatever it is, the phone is as it was before. */
  async #unknown_answer(dice: Dice): Promise<boolean> {
    const waiting = this.#simulation.world.events.filter(
      (event): event is RequestEvent => event.what === 'request' && event.life.alive && !event.repeated,
    );
    const event = dice.pick(waiting);
    if (event === undefined) return false;
    const { phone } = event.life;
    if (
      phone.cycles !== 1 ||
      this.#simulation.world.events.some((one) => one.life.phone === phone && one !== event)
    )
      return false;
    const before = await fingerprint(phone);
    const { name, reply } = unknown_answer(dice);
    this.#simulation.world.count(`answer: ${name}`);
    this.#simulation.world.take(event);
    event.answer(reply);
    await this.#simulation.world.settle();
    await this.#simulation.network.run_phone(phone, (one) => one.what === 'begin' || one.what === 'told');
    const after = await fingerprint(phone);
    hold(15, before === after, () => `${phone.name} was changed by ${name}`);
    return true;
  }

  #erase(dice: Dice): boolean {
    const kinds = new Set(['take', 'reading', 'inspection', 'count']);
    const lines = [...this.#simulation.world.server.state.lines.values()].filter((line) =>
      kinds.has(line.written.kind),
    );
    const line = dice.pick(lines);
    if (line === undefined) return false;
    this.#simulation.world.server.erase(line.written.id);
    this.#simulation.story.erased.add(line.written.id);
    return true;
  }

  #sign_out(phone: Phone): boolean {
    const { devices } = this.#simulation.world.server.state;
    const device = devices.get(phone.token);
    if (device) this.#simulation.sign(phone.token, !device.signed_in);
    return device !== undefined;
  }

  /** A backup of the phone is put back on another one: same store, same cookie. */
  async #copy_store(phone: Phone): Promise<boolean> {
    if (
      this.#simulation.phones.length > 5 ||
      this.#simulation.phones.some((one) => one.name.endsWith('copy'))
    )
      return false;
    const name = `${phone.name}copy`;
    const disk = await phone.disk.copy(name);
    const { people, household, token } = phone;
    const wrapping = this.#simulation.options.wrapping ?? {};
    const copy = new Phone(this.#simulation.world, token, {
      name,
      household,
      people,
      disk,
      wrapping,
      seed: this.#simulation.dice.next(),
    });
    await copy.start();
    this.#simulation.phones.push(copy);
    for (const key of this.#simulation.story.settled) {
      if (key.startsWith(`${phone.name} `))
        this.#simulation.story.settled.add(`${name} ${key.slice(phone.name.length + 1)}`);
    }
    return true;
  }
}
