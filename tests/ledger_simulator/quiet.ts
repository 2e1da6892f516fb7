/** After the tape: the network is whole again, people look after their trays, and all phones sync until nothing moves. */
import type { Acts } from './acts.ts';
import { check_end } from './end.ts';
import { PEOPLE } from './household.ts';
import type { Phone } from './phone.ts';
import type { Simulation } from './simulation.ts';
import { Broken, check_status, held_by, type Watch } from './watch.ts';

const MOST_ROUNDS = 200;
const LONGER_THAN_A_REFERENCE_WAITS = 15 * 86_400_000;

export async function settle_all(simulation: Simulation, acts: Acts, watch: Watch): Promise<string> {
  const { world, phones } = simulation;
  make_whole(simulation);
  await simulation.network.run_out();
  const [keeper] = phones;
  for (const { id } of PEOPLE.slice(1)) if (keeper) acts.set_role(keeper, id, 'adult');
  const tried = new Map<string, number>();
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const before = await standing(phones);
    for (const phone of phones) {
      phone.begin_cycle();
      await simulation.network.run_out();
      await look_after(simulation, acts, phone, tried);
    }
    await watch.step(phones);
    const after = await standing(phones);
    if (after.quiet && before.text === after.text) return check_end(simulation, watch);
    // What names something nobody has any more waits its fourteen days.
    if (before.text === after.text) world.now += LONGER_THAN_A_REFERENCE_WAITS;
  }
  throw new Broken(
    `invariant 2: not quiet after ${String(MOST_ROUNDS)} rounds: ${(await standing(phones)).text}`,
  );
}

function make_whole(simulation: Simulation): void {
  const { server } = simulation.world;
  server.most_lines = 200;
  for (const token of server.state.devices.keys()) simulation.sign(token, true);
}

/** Sent again twice at most; then a person lets go. */
async function look_after(
  simulation: Simulation,
  acts: Acts,
  phone: Phone,
  tried: Map<string, number>,
): Promise<void> {
  for (const row of await phone.disk.rows('tray')) {
    if (row.settled !== undefined) continue;
    const times = (tried.get(row.id) ?? 0) + 1;
    tried.set(row.id, times);
    acts.settle(phone, row, times > 3 ? 'drop' : 'mend');
    await simulation.network.run_out();
  }
}

/** Where every phone stands; quiet when nothing waits anywhere. */
async function standing(
  phones: readonly Phone[],
): Promise<{ readonly text: string; readonly quiet: boolean }> {
  const parts: string[] = [];
  let quiet = true;
  for (const phone of phones) {
    const held = await held_by(phone);
    await check_status(phone, held);
    const open = held.tray.filter((row) => row.settled === undefined).length;
    const unsent = held.photos.filter(
      (photo) => photo.standing === 'to_send' || photo.standing === 'asked',
    ).length;
    const { cursor, generation, healing } = held.feed ?? {};
    parts.push(
      JSON.stringify([
        phone.name,
        held.outbox.map((row) => row.id),
        open,
        unsent,
        cursor,
        generation,
        held.entries.length,
      ]),
    );
    quiet &&= held.outbox.length === 0 && open === 0 && unsent === 0 && healing === false;
  }
  return { text: parts.join(' '), quiet };
}
