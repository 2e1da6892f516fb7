// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it, vi } from 'vitest';
import {
  DEVICE,
  fresh_name,
  HOUSEHOLD,
  let_in_store,
  LOT,
  RUNA,
  take,
  test_phone,
  TIBOR,
} from './doubles.ts';
import { put_draft } from './drafts.ts';
import { open_indexed_store } from './indexed_store.ts';
import { one_of } from './one.ts';
import { keep_photo } from './photos.ts';
import { edit, record_all, strike } from './record.ts';
import { read_records } from './records.ts';

const photo = (no: number) => ({
  hash: String(no).repeat(64),
  type: 'image/jpeg',
  bytes: new ArrayBuffer(8),
  taken_at: '2026-11-25T09:00:00.000Z',
});

describe('recording an entry', () => {
  it('writes the line with all that makes it unique', async () => {
    const phone = await test_phone();
    const line = one_of(await phone.keep(take(2000)));
    expect(line).toEqual({
      standing: 'waiting',
      written: {
        id: line.written.id,
        household: HOUSEHOLD,
        device: DEVICE,
        device_no: 1,
        person: RUNA,
        kind: 'take',
        schema: 1,
        happened_at: '2026-11-25T10:24:53.123+01:00',
        dated: 'clock',
        body: { lot: LOT, grams: 2000, for: 'eat' },
      },
    });
  });

  it('invariant 11: keeps entry and outbox row together, or neither', async () => {
    const phone = await test_phone();
    await phone.keep(take());
    expect((await phone.rows('outbox')).map((row) => row.id)).toEqual(
      (await phone.rows('entries')).map((row) => row.id),
    );
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementationOnce(() => {
      throw new DOMException('gone', 'DataError');
    });
    await expect(phone.keep(take())).rejects.toThrow();
    put.mockRestore();
    expect(await phone.rows('entries')).toHaveLength(1);
    expect(await phone.rows('outbox')).toHaveLength(1);
  });

  it('keeps several in one transaction, or none', async () => {
    const phone = await test_phone();
    const lines = await phone.keep(take(1), take(2), take(3));
    expect(lines.map((line) => line.written.device_no)).toEqual([1, 2, 3]);
    const broken = { ...take(5), body: { lot: LOT, spoon: (() => 1) as unknown as number } };
    await expect(phone.keep(take(4), broken)).rejects.toThrow();
    expect(await phone.rows('outbox')).toHaveLength(3);
  });

  it('counts on where it was after a restart, and never back', async () => {
    const name = fresh_name();
    const first = await test_phone(await let_in_store(name));
    await first.keep(take(), take());
    first.store.close();
    const again = await test_phone(await open_indexed_store(name));
    again.clock.at -= 86_400_000;
    expect(one_of(await again.keep(take())).written.device_no).toBe(3);
  });

  it('writes one line when it is tried again under its own id', async () => {
    const phone = await test_phone();
    const id = phone.mint_id();
    const first = one_of(await record_all(phone)([take(100, { id })]));
    const again = one_of(await record_all(phone)([take(100, { id })]));
    expect(again.written).toEqual(first.written);
    expect(await phone.rows('outbox')).toHaveLength(1);
  });

  it('dates by a person at noon, with the people who were there', async () => {
    const phone = await test_phone();
    const line = one_of(await phone.keep(take(100, { day: '2026-11-20', with: [TIBOR], person: TIBOR })));
    expect(line.written).toMatchObject({
      happened_at: '2026-11-20T12:00:00.000+01:00',
      dated: 'person',
      with: [TIBOR],
      person: TIBOR,
    });
    expect('with' in one_of(await phone.keep(take(100, { with: [] }))).written).toBe(false);
  });

  it('writes nothing on a phone that belongs to no household', async () => {
    const phone = await test_phone(await open_indexed_store(fresh_name()));
    await expect(phone.keep(take())).rejects.toMatchObject({ why: 'not_signed_in' });
  });

  it('gives each lot the next number of its block, and none when it is used up', async () => {
    const phone = await test_phone();
    await phone.store.write(['meta'], (tx) =>
      tx.put('meta', { name: 'codes', value: { blocks: [{ next: 40, to: 40 }], given_to: 40 } }),
    );
    const begin = {
      kind: 'put_away',
      body: { crop: 'carrot' },
      code: (number: number) => `K${String(number)}`,
    };
    const [first, second] = await phone.keep(begin, begin);
    expect(first?.written.body).toEqual({ crop: 'carrot', code: 'K40' });
    expect(second?.written.body).toEqual({ crop: 'carrot' });
  });

  it('hazard 20: moves its draft on in the same transaction', async () => {
    const phone = await test_phone();
    await put_draft(phone)({ id: 'r', kind: 'round', value: { lot: 1 } });
    await record_all(phone)([take()], { put: { id: 'r', kind: 'round', value: { lot: 2 } } });
    expect(await phone.rows('drafts')).toMatchObject([{ id: 'r', value: { lot: 2 } }]);
    await record_all(phone)([take()], { drop: 'r' });
    expect(await phone.rows('drafts')).toEqual([]);
  });

  it('names the photos of its draft', async () => {
    const phone = await test_phone();
    await keep_photo(phone)(photo(1), 'r');
    const line = one_of(await phone.keep(take(1, { photos: [photo(1).hash] })));
    expect(await phone.rows('photos')).toMatchObject([{ standing: 'to_send', named_by: [line.written.id] }]);
    expect('draft' in one_of(await phone.rows('photos'))).toBe(false);
  });

  it('hazard 18: is marked where its photo could not be kept', async () => {
    const phone = await test_phone();
    const line = one_of(await phone.keep(take(1, { without_photo: true })));
    expect(line.without_photo).toBe(true);
    expect('without_photo' in line.written).toBe(false);
  });
});

describe('striking', () => {
  it('names the line struck out', async () => {
    const phone = await test_phone();
    const struck = one_of(await phone.keep(take()));
    const line = await strike(phone)(struck.written.id, 'weighed wrong');
    expect(line.written).toMatchObject({
      kind: 'strike',
      strikes: struck.written.id,
      body: { why: 'weighed wrong' },
    });
    expect((await strike(phone)(struck.written.id)).written.body).toEqual({});
  });
});

describe('editing a record', () => {
  const space = '0190c1a5-0000-7000-8000-000000000003';
  const change = (name: string) => ({ type: 'space', record: space, set: { name } });

  it('is shown at once, the later over the earlier', async () => {
    const phone = await test_phone();
    await edit(phone)(change('Loft'));
    const line = await edit(phone)({ ...change('Attic'), set: { name: 'Attic', note: 'dry' } });
    expect(line.written.body).toEqual({
      type: 'space',
      record: space,
      base_rev: 0,
      set: { name: 'Attic', note: 'dry' },
    });
    expect(await phone.store.read(['records'], (tx) => read_records(tx, 'space'))).toEqual([
      {
        type: 'space',
        id: space,
        rev: 0,
        field_revs: {},
        values: { name: 'Attic', note: 'dry' },
        pending: ['name', 'note'],
      },
    ]);
  });

  it('starts from the revision last seen', async () => {
    const phone = await test_phone();
    await phone.store.write(['records'], (tx) =>
      tx.put('records', {
        key: `space/${space}`,
        type: 'space',
        id: space,
        values: { name: 'Loft' },
        rev: 4,
        field_revs: { name: 4 },
        generation: 1,
        painted: [],
      }),
    );
    expect((await edit(phone)(change('Attic'))).written.body['base_rev']).toBe(4);
  });
});
