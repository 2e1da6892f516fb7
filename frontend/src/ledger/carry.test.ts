// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { export_unsent, import_unsent } from './carry.ts';
import {
  is_push,
  json,
  let_in_store,
  lines_of,
  nothing_new,
  NOW_TEXT,
  problem,
  take,
  takes_all,
  test_phone,
  TIBOR,
  type TestPhone,
} from './doubles.ts';
import { put_draft } from './drafts.ts';
import { hash_of } from './hashing.ts';
import { one_of } from './one.ts';
import { keep_photo } from './photos.ts';

const bytes = Uint8Array.from([255, 216, 0, 7]).buffer;
const hash = hash_of(bytes);

/** Two lines, one refused, with a photo and a draft. */
async function with_unsent(): Promise<TestPhone> {
  const phone = await test_phone();
  await keep_photo(phone)({ hash, type: 'image/jpeg', bytes, taken_at: NOW_TEXT }, 'r');
  await put_draft(phone)({ id: 'r', kind: 'round', value: { lot: 3 } });
  const [bad] = await phone.keep(take(1), take(2, { photos: [hash], person: TIBOR }));
  phone.answer = (request) =>
    is_push(request)
      ? json({
          receipts: lines_of(request)
            .filter(({ written }) => written.id === bad?.written.id)
            .map(({ written }) => ({
              id: written.id,
              result: 'refused',
              code: 'shape',
              message: '',
              permanent: true,
            })),
          now: NOW_TEXT,
        })
      : nothing_new();
  await phone.cycle();
  return phone;
}

describe('carrying unsent work', () => {
  it('invariant 37: a revoked phone gives all of it out', async () => {
    const phone = await with_unsent();
    phone.answer = () => problem(403, 'revoked');
    expect(await phone.cycle()).toMatchObject({ kind: 'halted', why: 'revoked' });
    const carried = JSON.parse(await export_unsent(phone));
    expect(carried).toMatchObject({ format: 'winter-rounds-unsent', household: phone.household });
    expect(carried.lines).toHaveLength(1);
    expect(carried.refused).toHaveLength(1);
    expect(carried.drafts).toMatchObject([{ id: 'r' }]);
    expect(carried.photos).toMatchObject([{ hash, base64: '/9gABw==' }]);
  });

  it('and another phone takes it in, each line as it was written by its author (hazard 30)', async () => {
    const phone = await with_unsent();
    const text = await export_unsent(phone);
    const other = await test_phone();
    const before = (await phone.rows('entries')).map((row) => row.written);
    const came = await import_unsent(other)(text);
    expect([...came].sort()).toEqual(before.map((written) => written.id).sort());
    expect((await other.rows('entries')).map((row) => row.written)).toEqual(before);
    expect((await other.rows('outbox')).map((row) => row.written.person)).toContain(TIBOR);
    expect(await other.rows('photos')).toMatchObject([{ hash, standing: 'to_send' }]);
    expect(hash_of(one_of(await other.rows('pictures')).bytes)).toBe(hash);
    expect(await other.rows('drafts')).toMatchObject([{ id: 'r', value: { lot: 3 } }]);
  });

  it('taken in twice it is there once, and what is known already is left alone', async () => {
    const phone = await with_unsent();
    const text = await export_unsent(phone);
    expect(await import_unsent(phone)(text)).toEqual([]);
    const other = await test_phone();
    await import_unsent(other)(text);
    other.answer = takes_all();
    await other.cycle();
    expect(await import_unsent(other)(text)).toEqual([]);
    expect(await other.rows('outbox')).toEqual([]);
  });

  it('on another phone they go as recovered, with the skew of the clock that dated them', async () => {
    const phone = await test_phone();
    await phone.keep(take(1));
    phone.answer = takes_all();
    await phone.cycle();
    const [waiting] = await phone.keep(take(2));
    phone.clock.at -= 3_600_000;
    const other = await test_phone(await let_in_store(undefined, '0190c1a5-0000-7000-8000-0000000000ee'));
    await import_unsent(other)(await export_unsent(phone));
    expect(await other.rows('outbox')).toMatchObject([
      { id: waiting?.written.id, written: waiting?.written, recovered: { clock_skew_ms: 900 } },
    ]);
    other.answer = takes_all(2);
    await other.cycle();
    expect(lines_of(one_of(other.sent.filter(is_push)))).toMatchObject([
      { recovered: { clock_skew_ms: 900 } },
    ]);
    expect(await other.rows('entries')).toMatchObject([{ standing: 'sent', clock_skew_ms: 900 }]);
  });

  it('brought back to the phone that wrote them they are its own, dated by its own clock', async () => {
    const phone = await test_phone();
    await phone.keep(take(2));
    const emptied = await test_phone();
    await import_unsent(emptied)(await export_unsent(phone));
    expect(one_of(await emptied.rows('outbox')).recovered).toBeUndefined();
  });

  it('what the server has is not in it', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    phone.answer = takes_all();
    await phone.cycle();
    expect(JSON.parse(await export_unsent(phone))).toMatchObject({
      lines: [],
      refused: [],
      drafts: [],
      photos: [],
    });
  });

  it.each([
    ['no JSON', 'half a te'],
    ['something else', '{"format":"shopping list"}'],
    [
      'another household',
      JSON.stringify({
        format: 'winter-rounds-unsent',
        household: 'x',
        lines: [],
        refused: [],
        drafts: [],
        photos: [],
      }),
    ],
  ])('%s is taken for what it is', async (_what, text) => {
    await expect(import_unsent(await test_phone())(text)).rejects.toMatchObject({ why: 'not_found' });
  });

  it.each(['lines', 'refused', 'drafts', 'photos'])('a text with broken %s writes nothing', async (part) => {
    const phone = await with_unsent();
    const carried = JSON.parse(await export_unsent(phone));
    const other = await test_phone();
    await expect(import_unsent(other)(JSON.stringify({ ...carried, [part]: [{}] }))).rejects.toMatchObject({
      why: 'not_found',
    });
    expect(await other.rows('entries')).toEqual([]);
  });
});
