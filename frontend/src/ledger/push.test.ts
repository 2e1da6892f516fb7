// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it, vi } from 'vitest';
import {
  DEVICE,
  html,
  is_push,
  json,
  lines_of,
  nothing_new,
  NOW_TEXT,
  problem,
  take,
  takes_all,
  test_phone,
  type TestPhone,
} from './doubles.ts';
import { read_status, STATUS_STORES } from './lines.ts';
import { take_codes } from './numbers.ts';
import { one_of } from './one.ts';
import type { Request } from './ports.ts';
import { read_meta } from './store.ts';

const DAY_MS = 86_400_000;
const status = (phone: TestPhone) => phone.store.read(STATUS_STORES, read_status);
const waiting = async (phone: TestPhone) => (await phone.rows('outbox')).map((row) => row.id);
const pushes = (phone: TestPhone) => phone.sent.filter(is_push);

/** Answers each line of a push in its way; everything else has nothing new. */
const receipts =
  (tell: (id: string, at: number) => object | undefined, more: object = {}) =>
  (request: Request) =>
    is_push(request)
      ? json({
          receipts: lines_of(request)
            .map(({ written }, at) => tell(written.id, at))
            .filter((told) => told !== undefined),
          now: NOW_TEXT,
          clock_skew_ms: 0,
          ...more,
        })
      : nothing_new();

const refused = (id: string, code: string, permanent: boolean, facts = {}) => ({
  id,
  result: 'refused',
  code,
  message: `${code}, in words`,
  permanent,
  facts,
});

describe('a push', () => {
  it('sends lines as they were written, in the order of recording, with the build', async () => {
    const phone = await test_phone();
    const lines = await phone.keep(take(1), take(2));
    phone.answer = takes_all();
    await phone.cycle();
    const body = JSON.parse(String(one_of(pushes(phone)).body));
    expect(body).toEqual({
      device: DEVICE,
      sent_at: '2026-11-25T09:24:53.123Z',
      build: '7',
      codes: { left: 40, to: 40 },
      lines: lines.map(({ written }) => ({ written })),
    });
  });

  it('takes a line out of the outbox by its own receipt, and gives it number and skew', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    phone.answer = takes_all(12);
    expect(await phone.cycle()).toEqual({ kind: 'done' });
    expect(await waiting(phone)).toEqual([]);
    expect(await phone.rows('entries')).toMatchObject([{ standing: 'sent', seq: 12, clock_skew_ms: 900 }]);
  });

  it('hazard 1: is sent again when its reply is lost, the same bytes, and a duplicate settles it', async () => {
    const phone = await test_phone();
    const line = one_of(await phone.keep(take()));
    await phone.cycle();
    expect(await waiting(phone)).toEqual([line.written.id]);
    phone.answer = receipts((id) => ({ id, result: 'duplicate', seq: 3 }));
    await phone.cycle();
    expect(await waiting(phone)).toEqual([]);
    const [first, second] = pushes(phone).map((push) => JSON.stringify(lines_of(push)));
    expect(second).toBe(first);
  });

  it('hazard 6: leaves alone what was recorded while it was out', async () => {
    const phone = await test_phone();
    await phone.keep(take(1));
    const answer = takes_all();
    phone.answer = async (request) => {
      if (is_push(request) && pushes(phone).length === 1) await phone.keep(take(2));
      return answer(request);
    };
    await phone.cycle({ cut: () => pushes(phone).length > 0 });
    expect((await phone.rows('outbox')).map((row) => row.written.body['grams'])).toEqual([2]);
  });

  it('hazard 7, invariant 14: one bad line goes to the tray and holds up no other', async () => {
    const phone = await test_phone();
    const lines = await phone.keep(...Array.from({ length: 10 }, (_, at) => take(at)));
    phone.answer = receipts((id, at) =>
      at === 2 ? refused(id, 'shape', true) : { id, result: 'accepted', seq: at + 1 },
    );
    await phone.cycle();
    expect(await waiting(phone)).toEqual([]);
    expect(await phone.rows('tray')).toMatchObject([
      { id: lines[2]?.written.id, refusal: { code: 'shape' } },
    ]);
    expect(await status(phone)).toMatchObject({ to_send: 0, needs_you: 1 });
    const standings = (await phone.rows('entries')).map((row) => row.standing);
    expect(standings.filter((standing) => standing === 'sent')).toHaveLength(9);
  });

  it('invariant 12: leaves what a reply does not name where it is', async () => {
    const phone = await test_phone();
    const [, second] = await phone.keep(take(1), take(2));
    phone.answer = receipts((id, at) => (at === 0 ? { id, result: 'accepted', seq: 1 } : undefined));
    await phone.cycle();
    expect(await waiting(phone)).toEqual([second?.written.id]);
  });

  it('lets a line wait that is refused for now', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    phone.answer = receipts((id) => refused(id, 'person_not_here', false));
    await phone.cycle();
    phone.clock.at += 30 * DAY_MS;
    await phone.cycle();
    expect(await phone.rows('outbox')).toHaveLength(1);
    expect(await phone.rows('tray')).toEqual([]);
  });

  it('waits fourteen days for what a line names, then asks', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    phone.answer = receipts((id) => refused(id, 'unknown_reference', false));
    await phone.cycle();
    phone.clock.at += 14 * DAY_MS;
    await phone.cycle();
    expect(await phone.rows('tray')).toEqual([]);
    phone.clock.at += 1;
    await phone.cycle();
    expect(await phone.rows('outbox')).toEqual([]);
    expect(await phone.rows('tray')).toMatchObject([{ refusal: { code: 'unknown_reference' } }]);
  });

  it('goes past lines that must wait, however many', async () => {
    const phone = await test_phone();
    await phone.keep(...Array.from({ length: 205 }, (_, at) => take(at)));
    phone.answer = receipts((id, at) =>
      pushes(phone).length === 1
        ? refused(id, 'unknown_reference', false)
        : { id, result: 'accepted', seq: at + 1 },
    );
    await phone.cycle();
    expect(pushes(phone).map((push) => lines_of(push).length)).toEqual([200, 5]);
    expect(await phone.rows('outbox')).toHaveLength(200);
  });

  it('sends at most half a megabyte at a time', async () => {
    const phone = await test_phone();
    const long = { kind: 'take', body: { note: 'x'.repeat(60_000) } };
    await phone.keep(...Array.from({ length: 10 }, () => long));
    phone.answer = takes_all();
    await phone.cycle();
    expect(pushes(phone).map((push) => lines_of(push).length)).toEqual([8, 2]);
    expect(pushes(phone).every((push) => String(push.body).length < 512_000)).toBe(true);
  });
});

describe('an answer to the whole push', () => {
  it('413 halves the batch, and stays with that for the cycle', async () => {
    const phone = await test_phone();
    await phone.keep(...Array.from({ length: 6 }, (_, at) => take(at)));
    const taking = takes_all();
    phone.answer = (request) =>
      is_push(request) && lines_of(request).length > 2 ? html(413) : taking(request);
    await phone.cycle();
    expect(pushes(phone).map((push) => lines_of(push).length)).toEqual([6, 3, 1, 1, 1, 1, 1, 1]);
    expect(await waiting(phone)).toEqual([]);
  });

  it('413 from our server for a single line puts that one in the tray', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    phone.answer = (request) => (is_push(request) ? problem(413, 'too_large') : nothing_new());
    await phone.cycle();
    expect(await phone.rows('tray')).toMatchObject([{ refusal: { code: 'too_large' } }]);
  });

  it('413 from somebody on the way does not', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    phone.answer = () => html(413);
    expect(await phone.cycle()).toMatchObject({ kind: 'halted', why: 'not_ours' });
    expect(await phone.rows('outbox')).toHaveLength(1);
  });

  it.each([
    ['hazard 29: 401', problem(401, 'not_signed_in'), 'sign_in'],
    ['hazard 30: 403 for a revoked phone', problem(403, 'revoked'), 'revoked'],
    ['426', problem(426, 'update_needed'), 'update'],
    ['a 4xx nobody told us of', problem(418, 'teapot'), 'stopped'],
    ['hazard 28: a page of HTML with 200', html(), 'not_ours'],
    ['a page of HTML with 404', html(404), 'not_ours'],
    ['JSON that is no reply of ours', json({ hello: 'there' }), 'not_ours'],
    ['half a reply', { ...json({}), text: '{"receipts":[{"id"' }, 'not_ours'],
  ])('invariants 15 and 31: %s keeps everything and says so', async (_what, reply, why) => {
    const phone = await test_phone();
    const lines = await phone.keep(take(1), take(2));
    phone.answer = () => reply;
    expect(await phone.cycle()).toMatchObject({ kind: 'halted', why });
    expect(await waiting(phone)).toEqual(lines.map((line) => line.written.id));
    expect(await status(phone)).toMatchObject({ to_send: 2, halt: why });
    phone.answer = takes_all();
    await phone.cycle();
    expect(await status(phone)).toMatchObject({ to_send: 0 });
    expect('halt' in (await status(phone))).toBe(false);
  });

  it.each([
    ['20', 20_000],
    ['Wed, 25 Nov 2026 09:25:53 GMT', 59_877],
    ['999999999', 1_800_000],
    [undefined, 60_000],
  ])('hazard 36: 503 with Retry-After %s waits %i ms', async (retry_after, ms) => {
    const phone = await test_phone();
    await phone.keep(take());
    phone.answer = () => ({ ...html(503), ...(retry_after !== undefined && { retry_after }) });
    expect(await phone.cycle()).toEqual({ kind: 'later', ms });
  });

  it('hazard 15: a store that is gone ends the cycle, and nothing else', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    const taking = takes_all();
    phone.answer = (request) => {
      vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(() => {
        throw new DOMException('gone', 'UnknownError');
      });
      return taking(request);
    };
    expect(await phone.cycle()).toEqual({ kind: 'failed' });
    vi.restoreAllMocks();
    expect(await phone.rows('outbox')).toHaveLength(1);
  });

  it.each([undefined, html(500), html(502)])(
    'no answer, or a server that failed, is tried again later',
    async (reply) => {
      const phone = await test_phone();
      await phone.keep(take());
      phone.answer = () => reply;
      expect(await phone.cycle()).toEqual({ kind: 'failed' });
      expect(await phone.rows('outbox')).toHaveLength(1);
    },
  );
});

describe('lot numbers and devices', () => {
  const codes = (phone: TestPhone) => phone.store.read(['meta'], (tx) => read_meta(tx, 'codes'));

  it('asks with an empty push when few are left, and takes a block once', async () => {
    const phone = await test_phone();
    await phone.store.write(['meta'], (tx) =>
      tx.put('meta', { name: 'codes', value: { blocks: [{ next: 22, to: 40 }], given_to: 40 } }),
    );
    phone.answer = receipts(() => undefined, { codes: { from: 81, to: 120 } });
    await phone.cycle({ may_ask_codes: () => true });
    expect(lines_of(one_of(pushes(phone)))).toEqual([]);
    const blocks = [
      { next: 22, to: 40 },
      { next: 81, to: 120 },
    ];
    expect(await codes(phone)).toEqual({ blocks, given_to: 120 });
    await phone.keep(take());
    await phone.cycle();
    expect(await codes(phone)).toEqual({ blocks, given_to: 120 });
  });

  it('tells how many it can give still, those on blank labels not among them', async () => {
    const phone = await test_phone();
    await phone.store.write(['meta'], (tx) => take_codes(tx, 39));
    phone.answer = receipts(() => undefined, { codes: { from: 41, to: 80 } });
    await phone.cycle({ may_ask_codes: () => true });
    expect(JSON.parse(String(one_of(pushes(phone)).body)).codes).toEqual({ left: 1, to: 40 });
    const blocks = [
      { next: 40, to: 40 },
      { next: 41, to: 80 },
    ];
    expect(await codes(phone)).toEqual({ blocks, given_to: 80 });
  });

  it('does not ask while there are enough', async () => {
    const phone = await test_phone();
    phone.answer = takes_all();
    await phone.cycle({ may_ask_codes: () => true });
    expect(pushes(phone)).toEqual([]);
  });

  it('hazard 11: becomes a device of its own, numbers going on, without the codes of the other', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    const renewed = '0190c1a5-0000-7000-8000-0000000000dd';
    phone.answer = receipts((id) => ({ id, result: 'accepted', seq: 1 }), { renew: { device: renewed } });
    await phone.cycle();
    expect(one_of(await phone.keep(take())).written).toMatchObject({ device: renewed, device_no: 2 });
    expect((await codes(phone))?.blocks).toEqual([]);
  });
});
