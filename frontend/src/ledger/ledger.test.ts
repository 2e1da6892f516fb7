// @vitest-environment node
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Announcer, read_change } from './announce.ts';
import {
  is_push,
  json,
  lines_of,
  LOT,
  nothing_new,
  NOW_TEXT,
  RUNA,
  take,
  takes_all,
  test_phone,
  TIBOR,
  type TestPhone,
} from './doubles.ts';
import { hash_of } from './hashing.ts';
import { cycle_and_thin, KeptLedger } from './ledger.ts';
import { one_of } from './one.ts';
import type { Channel } from './ports.ts';
import type { Change, Outcome } from './shapes.ts';

afterEach(() => vi.restoreAllMocks());

/** Windows that hear each other. */
function windows(): () => Channel<Change> {
  const open: ((change: Change) => void)[] = [];
  return () => {
    let own: (change: Change) => void = () => undefined;
    open.push((change) => own(change));
    const at = open.length - 1;
    return {
      post: (change) => open.forEach((heard, other) => (other === at ? undefined : heard(change))),
      listen: (heard) => (own = heard),
      close: () => undefined,
    };
  };
}

interface Opened {
  readonly phone: TestPhone;
  readonly ledger: KeptLedger;
  readonly heard: Change[];
  /** What the window around it was asked to do. */
  readonly asked: string[];
}

async function opened(store?: TestPhone, channel = windows()()): Promise<Opened> {
  const phone = store ?? (await test_phone());
  const announcer = new Announcer(channel);
  const asked: string[] = [];
  const transport = {
    send: async (request: Parameters<TestPhone['answer']>[0]) => {
      phone.sent.push(request);
      return phone.answer(request);
    },
  };
  const ledger = new KeptLedger(phone, transport, {
    announcer,
    exchange: {
      saved: () => void asked.push('saved'),
      async nudge() {
        const parts = { transport, build: '7', cut: () => false, may_ask_codes: () => false };
        await cycle_and_thin(
          phone,
          { ...parts, changed: (what) => announcer.changed(what) },
          async () => ({}),
        );
        return 'done';
      },
    },
    start: () => () => undefined,
    ask_to_persist: async () => false,
    sign_off: async () => void asked.push('sign off'),
    delete_store: async () => void asked.push('delete'),
    new_version: () => false,
    close: () => void asked.push('close'),
  });
  const heard: Change[] = [];
  ledger.subscribe((change) => heard.push(change));
  return { phone, ledger, heard, asked };
}

function value<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.why);
  return outcome.value;
}

describe('the ledger as screens see it', () => {
  it('keeps an entry, tells every window, and asks for an exchange soon', async () => {
    const channel = windows();
    const first = await opened(undefined, channel());
    const second = await opened(first.phone, channel());
    const line = value(await first.ledger.record(take()));
    const change = {
      lines: [line.written.id],
      records: false,
      sheets: false,
      drafts: false,
      photos: true,
      tray: false,
      status: true,
    };
    expect(first.heard).toEqual([change]);
    expect(second.heard).toEqual([change]);
    expect(first.asked).toEqual(['saved']);
    expect(await second.ledger.line(line.written.id)).toEqual(line);
  });

  it('invariant 35: the status is what the stores hold', async () => {
    const { phone, ledger } = await opened();
    expect(await ledger.status()).toEqual({ to_send: 0, photos_to_send: 0, needs_you: 0 });
    const bytes = new ArrayBuffer(3);
    const photo = { hash: hash_of(bytes), type: 'image/jpeg', bytes, taken_at: NOW_TEXT };
    await ledger.photos.keep(photo, 'r');
    await ledger.record(take(1, { photos: [photo.hash] }));
    phone.clock.at += 60_000;
    await ledger.record(take(2));
    expect(await ledger.status()).toEqual({
      to_send: 2,
      photos_to_send: 1,
      needs_you: 0,
      oldest: '2026-11-25T09:24:53.123Z',
    });
    const taking = takes_all();
    phone.answer = (request) =>
      is_push(request) && lines_of(request).length > 0
        ? json({
            receipts: lines_of(request).map(({ written }, at) =>
              at === 0
                ? { id: written.id, result: 'refused', code: 'role', message: '', permanent: true }
                : { id: written.id, result: 'accepted', seq: 1 },
            ),
            now: NOW_TEXT,
          })
        : taking(request);
    await ledger.sync_now();
    expect(await ledger.status()).toEqual({
      to_send: 0,
      photos_to_send: 0,
      needs_you: 1,
      last_pull: '2026-11-25T09:25:53.123Z',
    });
  });

  it('hazard 18: says that the phone is full as a value, and the form stays', async () => {
    const { ledger, heard } = await opened();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('full', 'QuotaExceededError');
    });
    expect(await ledger.record(take())).toEqual({ ok: false, why: 'store_full' });
    expect(heard).toEqual([]);
  });

  it('strikes, edits and reads back', async () => {
    const { ledger } = await opened();
    const line = value(await ledger.record(take()));
    const struck = value(await ledger.strike(line.written.id, 'twice', TIBOR));
    expect(struck.written).toMatchObject({ strikes: line.written.id, person: TIBOR });
    const space = ledger.mint_id();
    value(await ledger.edit({ type: 'space', record: space, set: { name: 'Loft' } }));
    expect(await ledger.records('space')).toMatchObject([{ id: space, values: { name: 'Loft' } }]);
    expect(await ledger.records('person')).toEqual([]);
    expect(await ledger.one_record('space', space)).toMatchObject({ pending: ['name'] });
    expect(await ledger.one_record('space', 'none')).toBeUndefined();
    expect(await ledger.lines()).toHaveLength(3);
    expect(await ledger.lines_by_id(['none', line.written.id])).toHaveLength(1);
  });

  it('hazard 20: a draft is kept at each step and read again after a restart', async () => {
    const { phone, ledger, heard } = await opened();
    value(await ledger.drafts.put({ id: 'r', kind: 'round', value: { lot: 2 } }));
    expect(heard.at(-1)).toMatchObject({ drafts: true, lines: [] });
    const again = await opened(phone);
    expect(await again.ledger.drafts.get('r')).toMatchObject({ value: { lot: 2 } });
    expect(await again.ledger.drafts.of_kind('put_away')).toEqual([]);
    expect(await again.ledger.drafts.of_kind('round')).toHaveLength(1);
    await again.ledger.drafts.drop('r');
    expect(await ledger.drafts.get('r')).toBeUndefined();
  });

  it('mending tells of every line that goes back', async () => {
    const { phone, ledger, heard } = await opened();
    const parent = phone.mint_id();
    await ledger.record({ id: parent, kind: 'put_away', body: { crop: 'carrot' } });
    const child = value(await ledger.record({ kind: 'take', body: { lot: parent } }));
    phone.answer = (request) =>
      is_push(request)
        ? json({
            receipts: lines_of(request).map(({ written: { id } }) => ({
              id,
              result: 'refused',
              code: id === parent ? 'shape' : 'parent_refused',
              message: '',
              permanent: true,
            })),
            now: NOW_TEXT,
          })
        : nothing_new();
    await ledger.sync_now();
    const rows = await ledger.tray.lines();
    const row = rows.find((one) => one.written.id === parent);
    value(await ledger.tray.mend(row?.id ?? '', { crop: 'onion' }));
    expect(heard.at(-1)).toMatchObject({ lines: [parent, child.written.id], tray: true });
    expect(await ledger.tray.mend('nowhere', {})).toEqual({ ok: false, why: 'not_found' });
  });

  it('who is writing is one of the people on this phone', async () => {
    const { ledger } = await opened();
    expect(await ledger.people()).toEqual([RUNA, TIBOR]);
    expect(await ledger.writer()).toBe(RUNA);
    await ledger.set_writer(TIBOR);
    expect(value(await ledger.record(take())).written.person).toBe(TIBOR);
  });

  it('shows the number the next lot will get, and uses it up', async () => {
    const { ledger } = await opened();
    expect(await ledger.next_code()).toBe(1);
    await ledger.record({ kind: 'put_away', body: { crop: 'carrot' }, code: String });
    expect(await ledger.next_code()).toBe(2);
  });

  it('hazard 19: says when the browser will not keep the store', async () => {
    const { ledger } = await opened();
    expect(await ledger.keep_safe()).toBe(false);
    expect(await ledger.status()).toMatchObject({ not_kept_safe: true });
  });

  it('invariant 31: signing out with unsent work needs a word', async () => {
    const { ledger, asked } = await opened();
    await ledger.record(take());
    expect(await ledger.sign_out(false)).toEqual({ left: false, unsent: 1 });
    expect(asked).toEqual(['saved']);
    expect(await ledger.sign_out(true)).toEqual({ left: true });
    expect(asked).toEqual(['saved', 'sign off', 'close', 'delete']);
  });

  it('takes a text of unsent work, and refuses another', async () => {
    const { ledger } = await opened();
    await ledger.record({ kind: 'take', body: { lot: LOT } });
    const other = await opened();
    expect(await other.ledger.import_unsent(await ledger.export_unsent())).toEqual({ ok: true, value: 1 });
    expect(await other.ledger.import_unsent('{}')).toEqual({ ok: false, why: 'not_found' });
    expect(one_of(await other.ledger.lines()).standing).toBe('waiting');
  });
});

describe('what another window says', () => {
  it('is read by its shape', () => {
    expect(read_change({ lines: ['a'], records: true })).toEqual({
      lines: ['a'],
      records: true,
      sheets: false,
      drafts: false,
      photos: false,
      tray: false,
      status: false,
    });
    expect(read_change({ lines: 'a' })).toBeUndefined();
    expect(read_change(null)).toBeUndefined();
  });
});
