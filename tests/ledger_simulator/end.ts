/** What must hold when all phones have synced and nothing waits. */
import { as_record } from '../../frontend/src/ledger/records.ts';
import { is_list, is_object } from '../../frontend/src/wire/json.ts';
import { read_edit } from '../../frontend/src/wire/written.ts';
import { amounts, phone_lines, server_lines, stock, with_clock } from './figures.ts';
import { body_hash, canonical, same_json } from './model/canonical.ts';
import { Dice } from './dice.ts';
import { begun_by } from './model/kinds.ts';
import type { Phone } from './phone.ts';
import type { Simulation } from './simulation.ts';
import { held_by, hold, type Held, type Watch } from './watch.ts';

/** Returns all that came of the run as one text. */
export async function check_end(simulation: Simulation, watch: Watch): Promise<string> {
  const { world, phones, story } = simulation;
  const { state } = world.server;
  const figures = stock(server_lines(state));
  const parts: string[] = [figures];
  for (const phone of phones) {
    const held = await held_by(phone);
    same_lines(simulation, phone.name, held);
    same_records(simulation, phone.name, held);
    const arrived = [...(watch.arrivals.get(phone.name) ?? [])];
    const lines =
      simulation.options.fold_input?.(phone_lines(held.entries), arrived) ?? phone_lines(held.entries);
    hold(8, stock(lines) === figures, () => `${phone.name}: stock differs from the server's`);
    photos_arrived(simulation, phone.name, held);
    still_named(simulation, phone.name, held);
    await both_values_told(simulation, phone);
    const sheets = (await phone.disk.rows('sheets')).map((row) => `${row.key} ${String(row.seq)}`);
    const there = [...state.sheets].map(([key, seq]) => `${key} ${String(seq)}`).sort();
    hold(
      6,
      sheets.join() === there.join(),
      () => `${phone.name} has the sheets ${sheets.join()}, the server ${there.join()}`,
    );
    parts.push(phone.name, canonical(held.entries.map((row) => [row.id, row.seq])));
  }
  shuffled(simulation, figures);
  other_clocks(simulation);
  everything_returned(simulation);
  in_order(simulation);
  await told_apart(simulation);
  revisions(simulation);
  hold(1, story.confirmed.size > 0, () => 'nothing was written: the run proves nothing');
  pushed_again(simulation);
  parts.push(canonical([...state.lines.keys()]), canonical(Object.fromEntries(world.tally)));
  return parts.join('\n');
}

/** 2 and 3: the same set of lines everywhere, each with the body its hash was taken of, and a wording a person gave. */
function same_lines({ world, story }: Simulation, name: string, held: Held): void {
  const { state } = world.server;
  hold(
    2,
    held.entries.length === state.lines.size,
    () => `${name} has ${String(held.entries.length)} lines, the server ${String(state.lines.size)}`,
  );
  for (const row of held.entries) {
    const line = state.lines.get(row.id);
    hold(
      2,
      line !== undefined && line.seq === row.seq,
      () => `${name}: ${row.id} is ${String(row.seq)} here, ${String(line?.seq)} there`,
    );
    hold(
      3,
      body_hash(row.written) === line?.hash && row.body_hash === line.hash,
      () => `${name}: the body of ${row.id} changed`,
    );
    hold(3, story.word(row.written), () => `${name}: ${row.id} says what nobody wrote`);
    hold(9, row.standing === 'sent', () => `${name}: ${row.id} is ${row.standing} at quiet`);
  }
}

/** 16 to 18: the same values and revisions everywhere, and nothing painted over them any more. */
function same_records({ world }: Simulation, name: string, held: Held): void {
  const { records } = world.server.state;
  hold(
    16,
    held.records.length === records.size,
    () => `${name} has ${String(held.records.length)} records, the server ${String(records.size)}`,
  );
  for (const row of held.records) {
    const there = records.get(row.key);
    const here = as_record(row);
    hold(
      16,
      same_json(here.values, there?.values),
      () => `${name}: ${row.key} is ${canonical(here.values)}, there ${canonical(there?.values ?? null)}`,
    );
    hold(
      18,
      here.rev === there?.rev,
      () => `${name}: ${row.key} has rev ${String(here.rev)}, there ${String(there?.rev)}`,
    );
    hold(19, here.pending.length === 0, () => `${name}: ${row.key} is still painted`);
  }
}

/** 27: each photo a line names is on the server. */
function photos_arrived({ world }: Simulation, name: string, held: Held): void {
  for (const photo of held.photos) {
    const named = photo.named_by.some((id) => world.server.state.lines.has(id));
    const there = world.server.state.photos.has(photo.hash) || photo.standing === 'broken';
    hold(
      27,
      !named || there,
      () => `${name}: photo ${photo.hash} is ${photo.standing} and not on the server`,
    );
  }
}

/** 8: any order, the same figures. */
function shuffled({ world }: Simulation, figures: string): void {
  const lines = [...server_lines(world.server.state)];
  const dice = new Dice(lines.length);
  for (let at = lines.length - 1; at > 0; at -= 1) {
    const other = dice.below(at + 1);
    const [a, b] = [lines[at], lines[other]];
    if (a && b) [lines[at], lines[other]] = [b, a];
  }
  hold(8, stock(lines) === figures, () => 'another order of lines gives other stock');
}

/** 17: where two edits met, every phone shows one value, one of those written, and can tell the other. */
async function both_values_told({ world }: Simulation, phone: Phone): Promise<void> {
  const told = new Set((await phone.disk.rows('conflicts')).map((row) => row.key));
  for (const { written, outcome } of world.server.state.lines.values()) {
    const conflicts = outcome?.['conflicts'];
    for (const conflict of is_list(conflicts) ? conflicts : []) {
      const key = `${written.id}:${is_object(conflict) ? String(conflict['field']) : ''}`;
      hold(17, told.has(key), () => `${phone.name} does not know that ${key} met another edit`);
    }
  }
}

/** 20: a space that was archived is still there for the lines that name it. */
function still_named({ world }: Simulation, name: string, held: Held): void {
  const spaces = new Set(held.records.filter((row) => row.type === 'space').map((row) => row.id));
  for (const { written } of world.server.state.lines.values()) {
    const { space } = written.body;
    hold(
      20,
      typeof space !== 'string' || spaces.has(space),
      () => `${name}: ${String(space)} is gone and ${written.id} names it`,
    );
  }
}

/** 23: a phone whose clock had stood three days ahead, or two years, would have made the same stock. */
function other_clocks({ world, phones }: Simulation): void {
  const lines = server_lines(world.server.state);
  const device = phones[0]?.token ?? '';
  const before = amounts(with_clock(lines, device, 0));
  for (const days of [3, -730]) {
    const after = amounts(with_clock(lines, device, days * 86_400_000));
    hold(23, before === after, () => `another clock (${String(days)} days) gives other stock`);
  }
}

/** 21 and 24: what any phone said is kept is there, but what people let go or erased. */
function everything_returned({ world, story }: Simulation): void {
  for (const id of story.confirmed.keys()) {
    const gone = story.dropped.has(id) || story.erased.has(id);
    hold(21, gone || world.server.state.lines.has(id), () => `${id} did not come back`);
  }
}

/** 10: lines of one phone stand in the order it wrote them, refused, mended and healed ones aside. */
function in_order({ world, story }: Simulation): void {
  const last = new Map<string, number>();
  for (const { written } of [...world.server.state.lines.values()].sort((a, b) => a.seq - b.seq)) {
    if (story.out_of_order.has(written.id) || world.server.state.epoch > 1) continue;
    const before = last.get(written.device) ?? 0;
    const renewed = (world.tally.get('fault: copy_store') ?? 0) > 0;
    hold(
      10,
      renewed || written.device_no > before,
      () => `${written.id} stands after a later one of its phone`,
    );
    last.set(written.device, written.device_no);
  }
}

/** 24: two copies of one store end as two devices; no phone gives a lot number twice by itself. */
async function told_apart({ world, phones }: Simulation): Promise<void> {
  const devices = new Map<string, string>();
  for (const phone of phones) {
    const self = (await phone.disk.rows('meta')).find((row) => row.name === 'self');
    const device = self?.name === 'self' ? self.value.device : '';
    const met = [...world.server.state.numbers].some(
      ([key, ids]) => key.startsWith(`${device}/`) && ids.length > 1,
    );
    // A line that another phone brought back met nobody's number; the next one of its own will.
    const brought_back = world.server.state.epoch > 1;
    const other = devices.get(device);
    hold(
      24,
      brought_back || other === undefined || !met,
      () => `${phone.name} and ${String(other)} are still one device`,
    );
    devices.set(device, phone.name);
  }
  const copied = (world.tally.get('fault: copy_store') ?? 0) > 0;
  const codes = [...world.server.state.lines.values()].flatMap(({ written }) =>
    begun_by(written) === 'lot' ? [written.body['code']] : [],
  );
  const told = codes.filter((code) => code !== undefined);
  hold(24, copied || new Set(told).size === told.length, () => 'one lot number was given twice');
}

/** 18: one revision for each edit taken, and one for the line a record began with. */
function revisions({ world }: Simulation): void {
  const taken = new Map<string, number>();
  for (const { written, outcome } of world.server.state.lines.values()) {
    const edit = read_edit(written);
    const key = edit ? `${edit.type}/${edit.record}` : outcome && `lot/${written.id}`;
    if (key !== undefined) taken.set(key, (taken.get(key) ?? 0) + 1);
  }
  for (const [key, record] of world.server.state.records) {
    hold(
      18,
      record.rev === taken.get(key),
      () => `${key} has rev ${String(record.rev)} after ${String(taken.get(key))} edits`,
    );
  }
}

/** 5: pushed again in any grouping, the ledger stays as it is. */
function pushed_again({ world, phones }: Simulation): void {
  const { server } = world;
  const before = [...server.state.lines.values()]
    .map((line) => `${line.written.id} ${String(line.seq)}`)
    .join();
  const dice = new Dice(server.state.lines.size);
  const lines = [...server.state.lines.values()].map((line) => ({ written: line.written }));
  while (lines.length > 0) {
    const some = lines.splice(0, 1 + dice.below(5));
    const body = JSON.stringify({
      device: phones[0]?.token,
      sent_at: new Date(world.now).toISOString(),
      build: '1',
      lines: some,
    });
    const request = { method: 'POST', path: '/api/v1/sync/push', body } as const;
    server.answer({ request, token: phones[0]?.token ?? '' }, world.now);
  }
  const after = [...server.state.lines.values()]
    .map((line) => `${line.written.id} ${String(line.seq)}`)
    .join();
  hold(5, before === after, () => 'lines pushed again were written again');
}
