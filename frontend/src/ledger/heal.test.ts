// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import {
  is_missing,
  is_pull,
  is_push,
  json,
  lines_of,
  NOW_TEXT,
  page,
  problem,
  row_of,
  take,
  test_phone,
  type TestPhone,
} from './doubles.ts';
import { one_of } from './one.ts';
import { edit } from './record.ts';
import type { Request } from './ports.ts';
import { keep_photo } from './photos.ts';
import type { Body, Id, Line } from './shapes.ts';
import { read_meta } from './store.ts';

/** A server that can be put back: it has these lines, in this epoch. */
class Server {
  epoch = 1;
  rows: Body[] = [];
  erased: Id[] = [];
  asked = 0;

  answer = (request: Request) => {
    if (is_push(request))
      return json({
        receipts: lines_of(request).map((line) => this.#take(line)),
        now: NOW_TEXT,
        clock_skew_ms: 900,
      });
    if (is_missing(request)) return json(this.#lacking(request));
    if (is_pull(request)) return this.#page(request);
    return problem(404, 'not_found');
  };

  #take({ written, recovered }: ReturnType<typeof lines_of>[number]): Body {
    const known = this.rows.find((row) => id_of(row) === written.id);
    if (known) return { id: written.id, result: 'duplicate', seq: Number(known['seq']) };
    const seq = this.rows.length + 1;
    const skew = recovered?.clock_skew_ms ?? 900;
    this.rows.push({ ...row_of({ written, standing: 'sent' }, seq), clock_skew_ms: skew });
    return { id: written.id, result: 'accepted', seq };
  }

  #lacking(request: Request): Body {
    this.asked += 1;
    const { ids }: { ids: Id[] } = JSON.parse(String(request.body));
    const here = new Set(this.rows.map(id_of));
    const missing = ids.filter((id) => !here.has(id) && !this.erased.includes(id));
    return { missing, erased: ids.filter((id) => this.erased.includes(id)) };
  }

  #page(request: Request) {
    const after = new URLSearchParams(request.path.split('?')[1]).get('after') ?? '0';
    const [epoch = 0, seq = 0] = after === '0' ? [this.epoch, 0] : after.split('.').map(Number);
    if (epoch !== this.epoch || seq > this.rows.length) return problem(409, 'reset');
    const rows = this.rows.filter((row) => Number(row['seq']) > seq);
    return page(rows, `${String(this.epoch)}.${String(this.rows.length)}`);
  }
}

const id_of = (row: Body): Id => {
  const written = row['written'] as unknown as Line['written'];
  return written.id;
};

async function phone_and_server(): Promise<{ phone: TestPhone; server: Server }> {
  const phone = await test_phone();
  const server = new Server();
  phone.answer = server.answer;
  return { phone, server };
}

const feed = (phone: TestPhone) => phone.store.read(['meta'], (tx) => read_meta(tx, 'feed'));

describe('a server put back to an earlier state', () => {
  it('hazard 12, invariant 21: gets back what it lost, in its order, each with the skew it first had', async () => {
    const { phone, server } = await phone_and_server();
    const lines = await phone.keep(take(1), take(2), take(3), take(4));
    await phone.cycle();
    server.rows = server.rows.slice(0, 1);
    server.epoch = 2;
    expect(await phone.cycle()).toEqual({ kind: 'done' });
    expect(server.rows.map(id_of)).toEqual(lines.map((line) => line.written.id));
    expect(await phone.rows('outbox')).toEqual([]);
    expect((await phone.rows('entries')).map((row) => row.seq)).toEqual([1, 2, 3, 4]);
    expect(await feed(phone)).toMatchObject({
      cursor: { epoch: 2, seq: 4 },
      healing: false,
      sweeping: false,
    });
  });

  it("brings back another phone's lines too, marked as recovered", async () => {
    const { phone, server } = await phone_and_server();
    const written = {
      ...one_of(await phone.keep(take())).written,
      id: phone.mint_id(),
      device: 'another',
      device_no: 77,
    };
    server.rows = [{ ...row_of({ written, standing: 'sent' }, 1), clock_skew_ms: -259_200_000 }];
    await phone.cycle();
    server.rows = [];
    server.epoch = 2;
    await phone.cycle();
    const sent = phone.sent.filter(is_push).flatMap(lines_of);
    expect(sent.find((line) => line.written.id === written.id)).toEqual({
      written,
      recovered: { clock_skew_ms: -259_200_000 },
    });
  });

  it('heals before it says that all is done, even when it had no cursor yet', async () => {
    const { phone, server } = await phone_and_server();
    await phone.keep(take());
    // Pushed, then cut off before the first pull; the server is put back before that.
    await phone.cycle({ cut: () => server.rows.length > 0 });
    server.rows = [];
    server.epoch = 2;
    await phone.cycle();
    expect(server.rows).toHaveLength(1);
  });

  it('asks again with the next cycle when it was cut off while healing', async () => {
    const { phone, server } = await phone_and_server();
    await phone.keep(take(1), take(2));
    await phone.cycle();
    server.rows = [];
    server.epoch = 2;
    phone.answer = (request) => (is_missing(request) ? undefined : server.answer(request));
    expect(await phone.cycle()).toEqual({ kind: 'failed' });
    expect(await feed(phone)).toMatchObject({ healing: true });
    phone.answer = server.answer;
    await phone.cycle();
    expect(server.rows).toHaveLength(2);
  });

  it('an answer from before the reset takes nothing out of the outbox', async () => {
    const { phone, server } = await phone_and_server();
    const line = one_of(await phone.keep(take()));
    const other = await test_phone(phone.store);
    other.answer = server.answer;
    phone.answer = async (request) => {
      const reply = server.answer(request);
      if (!is_push(request)) return reply;
      // While the reply is on its way the server is put back, and another window meets the reset.
      server.rows = [];
      server.epoch += 1;
      await other.store.write(['meta'], async (tx) => {
        const now = await read_meta(tx, 'feed');
        if (now)
          await tx.put('meta', {
            name: 'feed',
            value: { ...now, generation: now.generation + 1, healing: true },
          });
      });
      phone.answer = () => undefined;
      return reply;
    };
    await phone.cycle();
    expect((await phone.rows('outbox')).map((row) => row.id)).toEqual([line.written.id]);
  });

  it('hazard 14: what was erased is not brought back, and goes', async () => {
    const { phone, server } = await phone_and_server();
    const [gone, stays] = await phone.keep(take(1), take(2));
    await phone.cycle();
    server.erased = [gone?.written.id ?? ''];
    server.rows = [row_of(stays ?? one_of([]), 1)];
    server.epoch = 2;
    await phone.cycle();
    expect(server.rows).toHaveLength(1);
    expect((await phone.rows('entries')).map((row) => row.id)).toEqual([stays?.written.id]);
  });

  it('leaves alone what waits or was refused', async () => {
    const { phone, server } = await phone_and_server();
    await phone.keep(take(1));
    phone.answer = (request) =>
      is_push(request)
        ? json({
            receipts: lines_of(request).map(({ written }) => ({
              id: written.id,
              result: 'refused',
              code: 'shape',
              message: '',
              permanent: true,
            })),
            now: NOW_TEXT,
          })
        : server.answer(request);
    await phone.cycle();
    server.epoch = 2;
    await phone.cycle();
    expect(await phone.rows('outbox')).toEqual([]);
    expect(await phone.rows('tray')).toHaveLength(1);
  });

  it('drops records and sheets that the server no longer has', async () => {
    const { phone, server } = await phone_and_server();
    const sheet = { key: 'roster', kind: 'roster', as_of: 0, made_at: NOW_TEXT, inputs: {}, content: 1 };
    const edit = one_of(
      await phone.keep({
        kind: 'edit',
        body: { type: 'space', record: 's', base_rev: 0, set: { name: 'Loft' } },
      }),
    );
    const outcome = { type: 'space', record: 's', values: { name: 'Loft' }, rev: 1, field_revs: { name: 1 } };
    server.rows = [row_of(edit, 1, { outcome }), { seq: 2, type: 'sheet', sheet, written: { id: '' } }];
    await phone.cycle();
    expect(await phone.rows('sheets')).toHaveLength(1);
    server.erased = [edit.written.id];
    server.rows = [];
    server.epoch = 2;
    await phone.cycle();
    expect(await phone.rows('records')).toEqual([]);
    expect(await phone.rows('sheets')).toEqual([]);
  });

  it('is asked whether it still has the photos it had', async () => {
    const { phone, server } = await phone_and_server();
    const bytes = new ArrayBuffer(8);
    const hash = 'a'.repeat(64);
    await keep_photo(phone)({ hash, type: 'image/jpeg', bytes, taken_at: NOW_TEXT }, 'd');
    await phone.keep(take(1, { photos: [hash] }));
    const seen: string[] = [];
    let there = true;
    phone.answer = (request) => {
      if (!request.path.startsWith('/api/v1/photos/')) return server.answer(request);
      seen.push(request.method);
      if (request.method === 'HEAD')
        return there ? { status: 200, content_type: 'image/jpeg', text: '' } : problem(404, 'not_found');
      return json({ done: true }, 201);
    };
    await phone.cycle();
    server.epoch = 2;
    await phone.cycle();
    expect(seen).toEqual(['PUT', 'HEAD']);
    there = false;
    server.epoch = 3;
    await phone.cycle();
    await phone.cycle();
    expect(seen).toEqual(['PUT', 'HEAD', 'HEAD', 'PUT']);
  });

  it('an edit that came back by another hand meanwhile is painted no more once it is told a duplicate', async () => {
    const { phone, server } = await phone_and_server();
    const mine = await edit(phone)({ type: 'space', record: 's', set: { name: 'Loft' } });
    const outcome = { type: 'space', record: 's', values: { name: 'Loft' }, rev: 1, field_revs: { name: 1 } };
    await phone.cycle({ cut: () => server.rows.length > 0 });
    server.rows = [row_of(mine, 1, { outcome })];
    await phone.cycle();
    server.rows = [];
    server.epoch = 2;
    const other = await test_phone(phone.store);
    other.answer = server.answer;
    phone.answer = async (request) => {
      const reply = server.answer(request);
      if (!is_missing(request)) return reply;
      // While this answer is on its way another phone brings the line back, and the other window pulls it.
      phone.answer = server.answer;
      server.rows = [row_of(mine, 1, { outcome })];
      await other.cycle();
      return reply;
    };
    await phone.cycle();
    expect(await phone.rows('outbox')).toEqual([]);
    expect(await phone.rows('records')).toMatchObject([{ rev: 1, painted: [] }]);
  });

  it('asks for many lines in parts', async () => {
    const { phone, server } = await phone_and_server();
    await phone.keep(...Array.from({ length: 501 }, (_, at) => take(at)));
    await phone.cycle();
    const before = server.asked;
    server.epoch = 2;
    await phone.cycle();
    expect(server.asked - before).toBe(2);
  });
});
