/** The phone's half of the ledger: what screens import. Everything else in this folder is inside. */
import { deleteDB } from 'idb';
import { parse_json } from '../wire/json.ts';
import type { Access } from './access.ts';
import { Announcer, read_change } from './announce.ts';
import {
  ask_to_persist,
  browser_channel,
  browser_clock,
  browser_random,
  browser_timers,
  is_visible,
  storage_estimate,
  watch_new_version,
  watch_page,
} from './browser.ts';
import { found, hear_who_may_write, mind, open_demo, pair } from './entering.ts';
import { Exchange } from './exchange.ts';
import type { Ledger } from './face.ts';
import { forget_home, put_home, read_home, read_homes } from './homes.ts';
import { id_mint } from './ids.ts';
import { database_name, open_indexed_store } from './indexed_store.ts';
import { cycle_and_thin, KeptLedger } from './ledger.ts';
import { browser_locks } from './locks.ts';
import type { Transport } from './ports.ts';
import type { Id } from './shapes.ts';
import type { Store } from './store.ts';
import { utc_text } from './times.ts';
import { browser_transport } from './transport.ts';
import { LedgerTrouble } from './trouble.ts';

export type * from './shapes.ts';
export type * from './face.ts';
export type * from './access.ts';
export type { Mark } from './worked_out.ts';

/** A store this build must not touch, or cannot have: say which, keep everything. */
export type Opened =
  | { readonly ok: true; readonly ledger: Ledger }
  | { readonly ok: false; readonly why: 'store_newer' | 'store_blocked' | 'store_closed' };

declare const __APP_BUILD__: string;
const CODES_ASKED_EVERY_MS = 60_000;

const open_store = (household: Id): Promise<Store> => open_indexed_store(database_name(household));

/** Open a household's store on this phone. Needs no network. */
export async function open(household: Id): Promise<Opened> {
  try {
    const store = await open_store(household);
    const home = await read_home(household);
    if (home) await put_home({ ...home, opened_at: utc_text(browser_clock.now()) });
    opened = household;
    return { ok: true, ledger: assemble(household, store) };
  } catch (error) {
    const why = error instanceof LedgerTrouble ? error.why : undefined;
    if (why === 'store_newer' || why === 'store_blocked' || why === 'store_closed') return { ok: false, why };
    throw error;
  }
}

let opened: Id | undefined;

/** The server itself, for what is not kept on the phone: pairing codes, the list of phones, when jobs ran. */
export const server = (): Transport => browser_transport(opened);

/** Before a household is open. */
export function access(): Access {
  const deps = { transport: browser_transport(), clock: browser_clock, open_store, put_home };
  return {
    homes: read_homes,
    pair: pair(deps),
    mind: mind(deps),
    open_demo: open_demo(deps),
    found: found(deps),
  };
}

function assemble(household: Id, store: Store): Ledger {
  const deps = {
    household,
    store,
    clock: browser_clock,
    random: browser_random,
    mint_id: id_mint(browser_clock, browser_random),
  };
  const transport = browser_transport(household);
  const name = database_name(household);
  const channel = browser_channel(name, (message) =>
    read_change(parse_json(JSON.stringify(message)) ?? null),
  );
  const announcer = new Announcer(channel);
  const waiting = watch_new_version(() => announcer.changed({}));
  let codes_asked_at = -Infinity;
  const exchange: Exchange = new Exchange({
    lock: name,
    locks: browser_locks(),
    random: browser_random,
    timers: browser_timers,
    visible: is_visible,
    anything_to_send: async () => (await store.read(['outbox'], (tx) => tx.count('outbox'))) > 0,
    cycle: (limits) =>
      cycle_and_thin(
        deps,
        {
          ...limits,
          transport,
          build: __APP_BUILD__,
          changed: (what) => announcer.changed(what),
          may_ask_codes,
        },
        storage_estimate,
      ),
  });
  function may_ask_codes(): boolean {
    const now = browser_timers.elapsed();
    if (now - codes_asked_at < CODES_ASKED_EVERY_MS) return false;
    codes_asked_at = now;
    return true;
  }
  return new KeptLedger(deps, transport, {
    announcer,
    exchange,
    ask_to_persist,
    new_version: waiting,
    start() {
      const stop_watching = watch_page({
        shown: () => void exchange.nudge(),
        put_away: () => exchange.let_go(),
      });
      void exchange.nudge();
      void hear_who_may_write({ store, transport }).then(
        (heard) => heard && announcer.changed({ records: true }),
      );
      return stop_watching;
    },
    async sign_off() {
      await transport.send({
        method: 'POST',
        path: '/api/v1/sign-out',
        content_type: 'application/json',
        body: '{}',
      });
    },
    async delete_store() {
      await forget_home(household);
      await deleteDB(name);
    },
    close() {
      exchange.stop();
      channel.close();
    },
  });
}
