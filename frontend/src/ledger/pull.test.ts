// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import {
  html,
  is_missing,
  is_pull,
  is_push,
  json,
  lines_of,
  LOT,
  nothing_new,
  NOW_TEXT,
  page,
  problem,
  row_of,
  take,
  takes_all,
  test_phone,
  type TestPhone,
} from './doubles.ts';
import { read_conflicts, see_conflict } from './conflicts.ts';
import { read_lines, read_sheets } from './lines.ts';
import { one_of } from './one.ts';
import type { Reply, Request } from './ports.ts';
import { edit } from './record.ts';
import { read_records } from './records.ts';
import { read_meta } from './store.ts';
import type { Body, Line } from './shapes.ts';

const OTHER = '0190c1a5-0000-7000-8000-0000000000ee';
const SPACE = '0190c1a5-0000-7000-8000-000000000003';

/** A line another phone wrote. */
const theirs = (no: number, more: Partial<Line['written']> = {}): Line => ({
  standing: 'sent',
  written: {
    id: `0190c1a5-0000-7000-8000-1${String(no).padStart(11, '0')}`,
    household: 'h',
    device: OTHER,
    device_no: no,
    person: 'p',
    kind: 'take',
    schema: 1,
    happened_at: '2026-11-25T10:00:00.000+01:00',
    dated: 'clock',
    body: { lot: LOT, grams: no },
    ...more,
  },
});

/** Pages by the cursor asked with. */
const feed = (pages: Readonly<Record<string, Reply>>) => (request: Request) => {
  if (is_missing(request)) return json({ missing: [], erased: [] });
  return pages[new URLSearchParams(request.path.split('?')[1]).get('after') ?? ''] ?? nothing_new();
};

const cursor = async (phone: TestPhone) =>
  (await phone.store.read(['meta'], (tx) => read_meta(tx, 'feed')))?.cursor;
const held = async (phone: TestPhone) => (await phone.rows('entries')).map((row) => row.seq);
const records = (phone: TestPhone) => phone.store.read(['records'], (tx) => read_records(tx));
const asked = (phone: TestPhone) => phone.sent.filter(is_pull).map((request) => request.path.split('?')[1]);

const outcome = (values: Body, rev: number, more: Body = {}): Body => ({
  outcome: { type: 'space', record: SPACE, values, rev, field_revs: { name: rev }, ...more },
});
const their_edit = (no: number, name: string): Line =>
  theirs(no, { kind: 'edit', body: { type: 'space', record: SPACE, base_rev: 0, set: { name } } });

describe('a pull', () => {
  it('goes page by page to the end and remembers where', async () => {
    const phone = await test_phone();
    phone.answer = feed({
      '0': page([row_of(theirs(1), 1), row_of(theirs(2), 2)], '1.2', true),
      '1.2': page([row_of(theirs(3), 3)], '1.3'),
    });
    expect(await phone.cycle()).toEqual({ kind: 'done' });
    expect(asked(phone)).toEqual(['after=0&limit=500', 'after=1.2&limit=500']);
    expect(await held(phone)).toEqual([1, 2, 3]);
    expect(await cursor(phone)).toEqual({ epoch: 1, seq: 3 });
    const told = await phone.store.read(['entries', 'meta'], read_lines);
    expect(told[0]).toMatchObject({ standing: 'sent', seq: 1, clock_skew_ms: 900, received_at: NOW_TEXT });
  });

  it('is usable after the first page, and goes on from there', async () => {
    const phone = await test_phone();
    phone.answer = feed({ '0': page([row_of(theirs(1), 1)], '1.1', true), '1.1': html() });
    expect(await phone.cycle()).toMatchObject({ kind: 'halted', why: 'not_ours' });
    expect(await held(phone)).toEqual([1]);
    phone.answer = feed({ '1.1': page([row_of(theirs(2), 2)], '1.2') });
    await phone.cycle();
    expect(await held(phone)).toEqual([1, 2]);
  });

  it('asks for the next page while one is written, each once', async () => {
    const phone = await test_phone();
    const rows_when_asked: Record<string, number> = {};
    const pages = feed({
      '0': page([row_of(theirs(1), 1)], '1.1', true),
      '1.1': page([row_of(theirs(2), 2)], '1.2', true),
      '1.2': page([row_of(theirs(3), 3)], '1.3'),
    });
    phone.answer = async (request) => {
      if (is_pull(request)) rows_when_asked[request.path] = (await phone.rows('entries')).length;
      return pages(request);
    };
    await phone.cycle();
    expect(asked(phone)).toEqual(['0', '1.1', '1.2'].map((after) => `after=${after}&limit=500`));
    expect(rows_when_asked['/api/v1/sync/pull?after=1.2&limit=500']).toBe(1);
    expect(await held(phone)).toEqual([1, 2, 3]);
    expect(await cursor(phone)).toEqual({ epoch: 1, seq: 3 });
  });

  it('leaves a page asked ahead unread where another window has moved the cursor', async () => {
    const phone = await test_phone();
    const pages = feed({
      '0': page([row_of(theirs(1), 1)], '1.1', true),
      '1.1': page([row_of(theirs(2), 2)], '1.2', true),
      '1.2': page([row_of(theirs(3), 3)], '1.3'),
      '1.9': page([row_of(theirs(10), 10)], '1.10'),
    });
    phone.answer = async (request) => {
      if (request.path.includes('after=1.2')) {
        await phone.store.write(['meta'], async (tx) => {
          const now = await read_meta(tx, 'feed');
          if (now) await tx.put('meta', { name: 'feed', value: { ...now, cursor: { epoch: 1, seq: 9 } } });
        });
      }
      return pages(request);
    };
    await phone.cycle();
    expect(await cursor(phone)).toEqual({ epoch: 1, seq: 10 });
    expect(await held(phone)).not.toContain(3);
  });

  it('tells which lines came', async () => {
    const phone = await test_phone();
    phone.answer = feed({ '0': page([row_of(theirs(1), 1)], '1.1') });
    await phone.cycle();
    expect(phone.changes).toContainEqual({ lines: [theirs(1).written.id], records: false, sheets: false });
  });

  it('keeps kinds it does not know whole', async () => {
    const phone = await test_phone();
    const strange = {
      ...row_of(theirs(1, { kind: 'power' }), 1),
      written: { ...theirs(1).written, kind: 'power', aura: [1] },
    };
    phone.answer = feed({ '0': page([strange], '1.1') });
    await phone.cycle();
    expect(one_of(await phone.rows('entries')).written).toMatchObject({ kind: 'power', aura: [1] });
  });

  it.each([
    ['rows that stand behind the cursor', page([row_of(theirs(2), 2), row_of(theirs(1), 1)], '1.2')],
    ['rows beyond what comes next', page([row_of(theirs(9), 9)], '1.2')],
    ['a row that is none', page([{ seq: 1, type: 'entry', written: 'x' }], '1.1')],
    ['an edit without what it came to', page([row_of(their_edit(1, 'Loft'), 1)], '1.1')],
    ['no cursor', json({ rows: [], more: false, head: '1.0', now: NOW_TEXT })],
  ])('invariant 15: takes nothing of a page with %s', async (_what, reply) => {
    const phone = await test_phone();
    phone.answer = feed({ '0': reply });
    expect(await phone.cycle()).toMatchObject({ kind: 'halted', why: 'not_ours' });
    expect(await held(phone)).toEqual([]);
    expect(await cursor(phone)).toBeUndefined();
  });

  it('invariant 7: the cursor never stands beyond the last row that is kept', async () => {
    const phone = await test_phone();
    phone.answer = feed({ '0': page([row_of(theirs(1), 1)], '1.40') });
    await phone.cycle();
    expect(await cursor(phone)).toEqual({ epoch: 1, seq: 1 });
  });

  it('hazard 4: applies a row of its own that comes before its receipt, and the reverse', async () => {
    const phone = await test_phone();
    const line = one_of(await phone.keep(take()));
    const row = page([row_of(line, 1)], '1.1');
    phone.answer = (request) =>
      is_push(request) ? json({ receipts: [], now: NOW_TEXT }) : feed({ '0': row })(request);
    await phone.cycle();
    expect(await phone.rows('entries')).toMatchObject([{ standing: 'waiting', seq: 1 }]);
    phone.answer = (request) =>
      is_push(request)
        ? json({
            receipts: lines_of(request).map(({ written }) => ({
              id: written.id,
              result: 'duplicate',
              seq: 1,
            })),
            now: NOW_TEXT,
          })
        : nothing_new('1.1');
    await phone.cycle();
    expect(await phone.rows('entries')).toMatchObject([{ standing: 'sent', seq: 1, clock_skew_ms: 900 }]);
    expect(await phone.rows('outbox')).toEqual([]);
  });

  it('hazard 5: a line that comes again is the same line', async () => {
    const phone = await test_phone();
    phone.answer = feed({
      '0': page([row_of(theirs(1), 1)], '1.1'),
      '1.1': page([row_of(theirs(1), 2)], '1.2'),
    });
    await phone.cycle();
    await phone.cycle();
    expect(await held(phone)).toEqual([2]);
  });

  it('leaves a page alone that another window wrote already', async () => {
    const phone = await test_phone();
    phone.answer = feed({ '0': page([row_of(theirs(1), 1)], '1.1') });
    await phone.cycle();
    const late = await test_phone(phone.store);
    late.answer = async (request) => {
      // While this answer is on its way the other window goes on.
      phone.answer = feed({ '1.1': page([row_of(theirs(2), 2), row_of(theirs(3), 3)], '1.3') });
      await phone.cycle();
      late.answer = () => nothing_new('1.3');
      return is_pull(request) ? page([row_of(theirs(2), 2)], '1.2') : undefined;
    };
    await late.cycle();
    expect(await cursor(phone)).toEqual({ epoch: 1, seq: 3 });
    expect(await held(phone)).toEqual([1, 2, 3]);
  });

  it("a minder's phone sends and pulls nothing", async () => {
    const phone = await test_phone();
    await phone.store.write(['meta'], (tx) =>
      tx.put('meta', { name: 'people', value: { listed: [OTHER], minder: true } }),
    );
    await phone.keep(take());
    phone.answer = takes_all();
    expect(await phone.cycle()).toEqual({ kind: 'done' });
    expect(phone.sent.map((request) => request.path)).toEqual(['/api/v1/sync/push']);
  });
});

describe('records', () => {
  it('take the values that stand, and the revisions', async () => {
    const phone = await test_phone();
    phone.answer = feed({
      '0': page(
        [
          row_of(their_edit(1, 'Loft'), 1, outcome({ name: 'Loft', kind: 'loft' }, 1)),
          row_of(their_edit(2, 'Attic'), 2, outcome({ name: 'Attic', kind: 'loft' }, 2)),
        ],
        '1.2',
      ),
    });
    await phone.cycle();
    expect(await records(phone)).toEqual([
      {
        type: 'space',
        id: SPACE,
        values: { name: 'Attic', kind: 'loft' },
        rev: 2,
        field_revs: { name: 2 },
        pending: [],
      },
    ]);
  });

  it('take what an entry began', async () => {
    const phone = await test_phone();
    const began = {
      outcome: { type: 'lot', record: LOT, values: { code: 'K7' }, rev: 1, field_revs: { code: 1 } },
    };
    phone.answer = feed({ '0': page([row_of(theirs(1, { kind: 'put_away' }), 1, began)], '1.1') });
    await phone.cycle();
    expect(await records(phone)).toMatchObject([{ type: 'lot', id: LOT, values: { code: 'K7' }, rev: 1 }]);
  });

  it('invariant 19: keep an edit of this phone painted over until its own row comes', async () => {
    const phone = await test_phone();
    const mine = await edit(phone)({ type: 'space', record: SPACE, set: { name: 'Mine' } });
    const theirs_row = row_of(their_edit(1, 'Theirs'), 1, outcome({ name: 'Theirs' }, 1));
    phone.answer = (request) =>
      is_push(request)
        ? json({ receipts: [], now: NOW_TEXT })
        : feed({ '0': page([theirs_row], '1.1') })(request);
    await phone.cycle();
    expect(await records(phone)).toMatchObject([{ values: { name: 'Mine' }, rev: 1, pending: ['name'] }]);
    phone.answer = (request) =>
      is_push(request)
        ? json({ receipts: [{ id: mine.written.id, result: 'accepted', seq: 2, rev: 2 }], now: NOW_TEXT })
        : problem(503, 'busy');
    await phone.cycle();
    // Its receipt is here, its row is not: no flicker back to the older value.
    expect(await records(phone)).toMatchObject([{ values: { name: 'Mine' }, pending: ['name'] }]);
    phone.answer = feed({ '1.1': page([row_of(mine, 2, outcome({ name: 'Theirs' }, 2))], '1.2') });
    await phone.cycle();
    expect(await records(phone)).toMatchObject([{ values: { name: 'Theirs' }, rev: 2, pending: [] }]);
  });

  it('invariant 17: show the other value of two edits once', async () => {
    const phone = await test_phone();
    const conflict = {
      field: 'name',
      standing: 'Attic',
      other: 'Loft',
      other_edit: 'e',
      other_person: 'p',
      other_at: NOW_TEXT,
      standing_person: 'q',
    };
    const row = row_of(their_edit(1, 'Attic'), 1, outcome({ name: 'Attic' }, 2, { conflicts: [conflict] }));
    phone.answer = feed({ '0': page([row], '1.1') });
    await phone.cycle();
    const [shown] = await phone.store.read(['conflicts'], read_conflicts);
    expect(shown).toEqual({
      id: `${their_edit(1, '').written.id}:name`,
      type: 'space',
      record: SPACE,
      ...conflict,
    });
    await see_conflict(phone.store, shown?.id ?? '');
    expect(await phone.store.read(['conflicts'], read_conflicts)).toEqual([]);
  });

  it('a refused edit is painted no more', async () => {
    const phone = await test_phone();
    const mine = await edit(phone)({ type: 'space', record: SPACE, set: { name: 'Mine' } });
    phone.answer = (request) =>
      is_push(request)
        ? json({
            receipts: [
              { id: mine.written.id, result: 'refused', code: 'role', message: 'no', permanent: true },
            ],
            now: NOW_TEXT,
          })
        : nothing_new();
    await phone.cycle();
    expect(await records(phone)).toEqual([]);
  });
});

describe('sheets', () => {
  const sheet = (seq: number, content: string): Body => ({
    seq,
    type: 'sheet',
    sheet: { key: 'roster', kind: 'roster', as_of: seq - 1, made_at: NOW_TEXT, inputs: {}, content },
  });

  it('are kept apart, the newest of each key, and say when they are behind', async () => {
    const phone = await test_phone();
    phone.answer = feed({ '0': page([sheet(1, 'old')], '1.1'), '1.1': page([sheet(2, 'new')], '1.2') });
    await phone.cycle();
    await phone.cycle();
    const read = () => phone.store.read(['sheets', 'outbox', 'meta'], read_sheets);
    expect(await read()).toEqual([
      {
        key: 'roster',
        kind: 'roster',
        as_of: 1,
        made_at: NOW_TEXT,
        inputs: {},
        content: 'new',
        behind: false,
      },
    ]);
    await phone.keep(take());
    expect(await read()).toMatchObject([{ behind: true }]);
  });
});
