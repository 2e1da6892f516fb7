// @vitest-environment node
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import {
  html,
  is_push,
  json,
  NOW_TEXT,
  problem,
  take,
  takes_all,
  test_phone,
  type TestPhone,
} from './doubles.ts';
import { drop_draft } from './drafts.ts';
import { hash_of } from './hashing.ts';
import {
  forget_photo,
  keep_photo,
  look_at,
  make_room,
  photo_state,
  photos_of_draft,
  thin,
  with_room,
} from './photos.ts';
import type { Reply, Request } from './ports.ts';
import type { ReadyPhoto } from './shapes.ts';
import { read_meta } from './store.ts';

afterEach(() => vi.restoreAllMocks());

function picture(no: number, more: Partial<ReadyPhoto> = {}): ReadyPhoto {
  const bytes = Uint8Array.from([no, no, no]).buffer;
  const thumbnail = Uint8Array.from([no]).buffer;
  return { hash: hash_of(bytes), type: 'image/jpeg', bytes, thumbnail, taken_at: NOW_TEXT, ...more };
}

const is_photo = (request: Request): boolean => request.path.startsWith('/api/v1/photos/');

/** Takes all lines, and answers photos so. */
const with_photos = (answer: (request: Request) => Reply | undefined): TestPhone['answer'] => {
  const rest = takes_all();
  return (request) => (is_photo(request) ? answer(request) : rest(request));
};

const standings = async (phone: TestPhone) => (await phone.rows('photos')).map((photo) => photo.standing);
const sent = (phone: TestPhone) => phone.sent.filter(is_photo);

async function taken(photo = picture(1)): Promise<TestPhone> {
  const phone = await test_phone();
  await keep_photo(phone)(photo, 'round');
  await phone.keep(take(1, { photos: [photo.hash] }));
  return phone;
}

describe('photos on their way', () => {
  it('hazard 24, invariant 26: follow their entry, which does not wait for them', async () => {
    const phone = await taken();
    phone.answer = with_photos(() => undefined);
    expect(await phone.cycle()).toEqual({ kind: 'failed' });
    expect((await phone.rows('entries')).map((row) => row.standing)).toEqual(['sent']);
    expect(phone.sent.map((request) => request.path.split('/')[3]?.split('?')[0])).toEqual([
      'sync',
      'sync',
      'sync',
      'photos',
    ]);
    phone.answer = with_photos(() => json({ done: true }, 201));
    await phone.cycle();
    expect(await standings(phone)).toEqual(['sent']);
  });

  it('are not sent before their entry was taken', async () => {
    const phone = await taken();
    phone.answer = (request) =>
      is_push(request) ? json({ receipts: [], now: NOW_TEXT }) : takes_all()(request);
    await phone.cycle();
    expect(sent(phone)).toEqual([]);
  });

  it('are sent as bytes under their hash, with their type', async () => {
    const photo = picture(1);
    const phone = await taken(photo);
    phone.answer = with_photos(() => json({ done: true }));
    await phone.cycle();
    const [put] = sent(phone);
    expect(put).toMatchObject({
      method: 'PUT',
      path: `/api/v1/photos/${photo.hash}`,
      content_type: 'image/jpeg',
    });
    expect(put?.body instanceof ArrayBuffer && hash_of(put.body)).toBe(photo.hash);
  });

  it.each([
    ['200 that says nothing of it', json({ hello: 'there' })],
    ['hazard 28: a page of HTML', html()],
    ['a server that failed', html(500)],
    ['no answer', undefined],
  ])('invariant 15: %s sends nothing away', async (_what, reply) => {
    const phone = await taken();
    phone.answer = with_photos(() => reply);
    await phone.cycle();
    expect(await standings(phone)).toEqual(['to_send']);
  });

  it.each([413, 415, 422])('%i from our server is told, and keeps the bytes', async (status) => {
    const photo = picture(1);
    const phone = await taken(photo);
    phone.answer = with_photos(() => problem(status, 'photo_kind'));
    await phone.cycle();
    expect(await standings(phone)).toEqual(['refused']);
    expect(await photo_state(phone)(photo.hash)).toBe('refused');
    expect(await phone.rows('pictures')).toHaveLength(2);
  });

  it('bytes that were spoilt on the way are sent again, on the disk they are missing', async () => {
    const phone = await taken();
    phone.answer = with_photos(() => problem(422, 'photo_hash'));
    expect(await phone.cycle()).toEqual({ kind: 'failed' });
    expect(await standings(phone)).toEqual(['to_send']);
    const spoilt = await taken({ ...picture(1), hash: 'b'.repeat(64) });
    spoilt.answer = with_photos(() => problem(422, 'photo_hash'));
    await spoilt.cycle();
    expect(await photo_state(spoilt)('b'.repeat(64))).toBe('missing');
  });

  it('an answer from before a reset is not believed', async () => {
    const phone = await taken();
    phone.answer = with_photos(() => undefined);
    await phone.cycle();
    const answer = with_photos(() => json({ done: true }));
    phone.answer = async (request) => {
      if (is_photo(request)) {
        await phone.store.write(['meta'], async (tx) => {
          const feed = await read_meta(tx, 'feed');
          if (feed)
            await tx.put('meta', { name: 'feed', value: { ...feed, generation: feed.generation + 1 } });
        });
      }
      return answer(request);
    };
    await phone.cycle();
    expect(await standings(phone)).toEqual(['asked']);
  });
});

describe('photos on the phone', () => {
  it('stay with their draft, in the order taken, until a line names them or the draft goes', async () => {
    const phone = await test_phone();
    await keep_photo(phone)(picture(2), 'round');
    phone.clock.at += 1000;
    await keep_photo(phone)(picture(1), 'round');
    await keep_photo(phone)(picture(3), 'other');
    expect(await photos_of_draft(phone)('round')).toEqual([picture(2).hash, picture(1).hash]);
    await phone.keep(take(1, { photos: [picture(2).hash] }));
    await drop_draft(phone)('round');
    expect((await phone.rows('photos')).map((photo) => photo.hash).sort()).toEqual(
      [picture(2).hash, picture(3).hash].sort(),
    );
  });

  it('are taken back out of a draft, but not out of a line', async () => {
    const phone = await taken();
    await keep_photo(phone)(picture(2), 'round');
    await forget_photo(phone)(picture(2).hash);
    await forget_photo(phone)(picture(1).hash);
    expect((await phone.rows('photos')).map((photo) => photo.hash)).toEqual([picture(1).hash]);
  });

  it('say when this phone could not read them', async () => {
    const phone = await taken(picture(1, { undecoded: true, type: 'image/heic' }));
    expect(await photo_state(phone)(picture(1).hash)).toBe('undecoded');
    expect(await photo_state(phone)('c'.repeat(64))).toBe('elsewhere');
  });

  it('are looked at from the phone, else fetched, and a thumbnail fetched once', async () => {
    const phone = await taken();
    const fetched = Uint8Array.from([9]).buffer;
    phone.answer = () => ({ status: 200, content_type: 'image/jpeg', text: '', bytes: fetched });
    const transport = {
      send: async (request: Request) => {
        phone.sent.push(request);
        return phone.answer(request);
      },
    };
    const look = look_at(phone, transport);
    expect((await look(picture(1).hash, 'full'))?.bytes).toEqual(picture(1).bytes);
    expect(sent(phone)).toEqual([]);
    const far = 'd'.repeat(64);
    expect((await look(far, 'thumbnail'))?.bytes).toEqual(fetched);
    expect((await look(far, 'thumbnail'))?.bytes).toEqual(fetched);
    expect(sent(phone).map((request) => request.path)).toEqual([`/api/v1/photos/${far}?size=thumb`]);
    phone.answer = () => undefined;
    // The whole one is not to be had now: better the thumbnail than nothing.
    expect((await look(far, 'full'))?.bytes).toEqual(fetched);
    expect(await look('e'.repeat(64), 'full')).toBeUndefined();
  });

  it('hazard 18, invariant 26: make room with what the server has, the oldest first, never with unsent ones', async () => {
    const phone = await taken(picture(1));
    phone.answer = with_photos(() => json({ done: true }));
    await phone.cycle();
    phone.clock.at += 1000;
    await keep_photo(phone)(picture(2), 'round');
    await phone.keep(take(1, { photos: [picture(2).hash] }));
    expect(await make_room(phone.store, Infinity)).toBe(3);
    expect((await phone.rows('pictures')).map((row) => row.key).sort()).toEqual(
      [`${picture(1).hash}/thumbnail`, `${picture(2).hash}/full`, `${picture(2).hash}/thumbnail`].sort(),
    );
    expect(await photo_state(phone)(picture(1).hash)).toBe('elsewhere');
    expect(await photo_state(phone)(picture(2).hash)).toBe('to_send');
  });

  it('hazard 18: a full phone is tried again after making room, then says so', async () => {
    const phone = await taken();
    phone.answer = with_photos(() => json({ done: true }));
    await phone.cycle();
    const put = IDBObjectStore.prototype.put;
    let full = true;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, row, key) {
      // Room is made by writing smaller rows; the large ones find none until then.
      if (this.name === 'photos') full = false;
      if (full && this.name === 'pictures') throw new DOMException('full', 'QuotaExceededError');
      return put.call(this, row, key);
    });
    const write = () =>
      phone.store.write(['pictures'], (tx) =>
        tx.put('pictures', { key: 'x', bytes: new ArrayBuffer(1), type: '' }),
      );
    await with_room(phone.store, write);
    expect((await phone.rows('pictures')).map((row) => row.key)).toContain('x');
  });

  it('are thinned to what the browser grants', async () => {
    const phone = await taken();
    phone.answer = with_photos(() => json({ done: true }));
    await phone.cycle();
    await thin(phone.store, { usage: 60, quota: 100 });
    expect(await photo_state(phone)(picture(1).hash)).toBe('sent');
    await thin(phone.store, { usage: 61, quota: 100 });
    expect(await photo_state(phone)(picture(1).hash)).toBe('elsewhere');
    await thin(phone.store, {});
  });
});
