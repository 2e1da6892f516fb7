/** Getting in: pairing by a typed code, and what is written on the phone when it is let in. */
import { read_let_in, read_let_in_value, type LetIn } from '../wire/access.ts';
import { is_object, parse_json } from '../wire/json.ts';
import { read_problem } from '../wire/problem.ts';
import type { Founding, Home, Paired } from './access.ts';
import type { Clock, Reply, Transport } from './ports.ts';
import type { Id } from './shapes.ts';
import { read_meta, type Store, type Tx } from './store.ts';
import { utc_text } from './times.ts';

export interface EnteringDeps {
  readonly transport: Transport;
  readonly clock: Clock;
  readonly open_store: (household: string) => Promise<Store>;
  readonly put_home: (home: Home) => Promise<void>;
}

export const pair =
  (deps: EnteringDeps) =>
  (code: string, name: string): Promise<Paired> =>
    enter(deps, '/api/v1/pair', { code, name });

export const open_demo = (deps: EnteringDeps) => (): Promise<Paired> => enter(deps, '/api/v1/demo', {});

export const mind =
  (deps: EnteringDeps) =>
  (token: string): Promise<Paired> =>
    enter(deps, '/api/v1/minder/open', { token });

export const found =
  (deps: EnteringDeps) =>
  (asked: Founding): Promise<Paired> =>
    enter(deps, '/api/v1/households', asked);

async function enter(deps: EnteringDeps, path: string, body: object): Promise<Paired> {
  const reply = await deps.transport.send({
    method: 'POST',
    path,
    content_type: 'application/json',
    body: JSON.stringify(body),
  });
  if (reply === undefined) return { ok: false, why: 'no_answer' };
  const let_in =
    reply.status < 300 && /^application\/json\b/i.test(reply.content_type)
      ? read_let_in(reply.text)
      : undefined;
  return let_in === undefined ? refusal(reply) : settle_in(deps, let_in);
}

function refusal(reply: Reply): Paired {
  const problem = read_problem(reply.content_type, reply.text);
  if (problem === undefined) return { ok: false, why: 'no_answer' };
  const why =
    problem.code === 'code_wrong' ? 'wrong_code' : problem.code === 'code_spent' ? 'spent' : 'refused';
  return { ok: false, why, detail: problem.detail };
}

/** A store that is there already (signed in again) keeps all it holds; its numbers go on. */
async function settle_in(deps: EnteringDeps, let_in: LetIn): Promise<Paired> {
  const { household, name, device, people } = let_in;
  const store = await deps.open_store(household);
  await write_let_in(store, let_in);
  store.close();
  const home: Home = {
    household,
    name,
    device,
    people,
    opened_at: utc_text(deps.clock.now()),
    ...(let_in.demo && { demo: true }),
    ...(let_in.minder && { minder: true }),
  };
  await deps.put_home(home);
  return { ok: true, home };
}

export async function write_let_in(store: Store, let_in: LetIn): Promise<void> {
  const { household, device, people, minder, codes } = let_in;
  await store.write(
    ['meta'],
    async (tx) => {
      const self = await read_meta(tx, 'self');
      // A store that was lost: the numbers this device gave before are not given again.
      const next_no = Math.max(self?.next_no ?? 1, let_in.last_no + 1);
      const next_outbox = self?.next_outbox ?? 1;
      await tx.put('meta', { name: 'self', value: { household, device, next_no, next_outbox } });
      if ((await read_meta(tx, 'feed')) === undefined) {
        await tx.put('meta', { name: 'feed', value: { generation: 1, healing: true, sweeping: false } });
      }
      await list_people(tx, people, minder);
      // A new device has a block of its own; numbers left over from the old one are in use there perhaps.
      const blocks = codes ? [{ next: codes.from, to: codes.to }] : [];
      if (self?.device !== device)
        await tx.put('meta', { name: 'codes', value: { blocks, given_to: codes?.to ?? 0 } });
      await tx.put('meta', { name: 'halt', value: {} });
    },
    'firm',
  );
}

/** A writer who is listed no more is the writer no more. */
async function list_people(tx: Tx, people: readonly Id[], minder: boolean): Promise<void> {
  const writer = (await read_meta(tx, 'people'))?.writer;
  const stays = writer !== undefined && people.includes(writer);
  await tx.put('meta', { name: 'people', value: { listed: people, minder, ...(stays && { writer }) } });
}

/** A keeper may have changed who writes on this phone. True when the server told it. */
export async function hear_who_may_write(deps: {
  readonly store: Store;
  readonly transport: Transport;
}): Promise<boolean> {
  const reply = await deps.transport.send({ method: 'GET', path: '/api/v1/session' });
  const session = reply?.status === 200 ? parse_json(reply.text) : undefined;
  const told = is_object(session) ? read_let_in_value(session['let_in']) : undefined;
  if (told === undefined) return false;
  return deps.store.write(['meta'], async (tx) => {
    const self = await read_meta(tx, 'self');
    if (self?.device !== told.device || self.household !== told.household) return false;
    await list_people(tx, told.people, told.minder);
    return true;
  });
}
