// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { one_of } from './one.ts';
import {
  is_pull,
  is_push,
  json,
  LOT,
  NOW_TEXT,
  page,
  problem,
  row_of,
  take,
  takes_all,
  test_phone,
  type TestPhone,
} from './doubles.ts';
import { drop } from './tray.ts';
import { keep_worked_out, mark_of, read_worked_out } from './worked_out.ts';

const OF = 'rules and settings';

async function kept_on(phone: TestPhone): Promise<void> {
  expect(await keep_worked_out(phone.store, await mark_of(phone.store), OF, 'the lots')).toBe(true);
  expect(await read_worked_out(phone.store, OF)).toBe('the lots');
}

const refuses_all = (phone: TestPhone): void => {
  phone.answer = (request) => {
    if (!is_push(request)) return takes_all()(request);
    const id = JSON.parse(String(request.body)).lines[0].written.id;
    const refused = { id, result: 'refused', code: 'lot_gone', message: 'gone', permanent: true, facts: {} };
    return json({ receipts: [refused], now: NOW_TEXT, clock_skew_ms: 0 });
  };
};

/** Everything that changes what the fold is made of. */
const CHANGES: Readonly<Record<string, (phone: TestPhone) => Promise<unknown>>> = {
  'an entry kept on this phone': (phone) => phone.keep(take()),
  'one that the server took': async (phone) => {
    phone.answer = takes_all();
    await phone.cycle();
  },
  'one that was refused': async (phone) => {
    refuses_all(phone);
    await phone.cycle();
  },
  'one that came from another phone': async (phone) => {
    const line = one_of(await phone.keep(take(300)));
    const elsewhere = { ...line, written: { ...line.written, id: LOT, device: LOT } };
    phone.answer = (request) =>
      is_pull(request) ? page([row_of(elsewhere, 1)], '1.1') : takes_all()(request);
    await phone.cycle();
  },
  'a reset of the server': async (phone) => {
    let told = false;
    phone.answer = (request) => {
      if (told || !is_pull(request)) return takes_all()(request);
      told = true;
      return problem(409, 'reset');
    };
    await phone.cycle();
  },
};

describe('what is kept of the lines', () => {
  it.each(Object.entries(CHANGES))('is gone after %s', async (_, change) => {
    const phone = await test_phone();
    await phone.keep(take());
    phone.answer = takes_all();
    await phone.cycle();
    await phone.keep(take(200));
    await kept_on(phone);
    await change(phone);
    expect(await read_worked_out(phone.store, OF)).toBeUndefined();
  });

  it('is gone after a refused line was dropped', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    refuses_all(phone);
    await phone.cycle();
    await kept_on(phone);
    const [row] = await phone.rows('tray');
    await drop(phone)(row?.key ?? '');
    expect(await read_worked_out(phone.store, OF)).toBeUndefined();
  });

  it('is not shown under other rules or settings', async () => {
    const phone = await test_phone();
    await kept_on(phone);
    expect(await read_worked_out(phone.store, 'other rules')).toBeUndefined();
  });

  it('is not kept when a line changed after the mark was taken', async () => {
    const phone = await test_phone();
    const mark = await mark_of(phone.store);
    await phone.keep(take());
    expect(await keep_worked_out(phone.store, mark, OF, 'too old')).toBe(false);
    expect(await read_worked_out(phone.store, OF)).toBeUndefined();
  });

  it('stands through a cycle in which nothing came', async () => {
    const phone = await test_phone();
    phone.answer = takes_all();
    await phone.cycle();
    await kept_on(phone);
    await phone.cycle();
    expect(await read_worked_out(phone.store, OF)).toBe('the lots');
  });
});
