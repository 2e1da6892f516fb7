// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import {
  is_push,
  json,
  lines_of,
  LOT,
  nothing_new,
  NOW_TEXT,
  page,
  row_of,
  take,
  takes_all,
  test_phone,
  type TestPhone,
} from './doubles.ts';
import { read_status, STATUS_STORES } from './lines.ts';
import { one_of } from './one.ts';
import { keep_photo } from './photos.ts';
import type { Id, Line, TrayLine } from './shapes.ts';
import { drop, mend, read_tray, send_again } from './tray.ts';

const tray = (phone: TestPhone): Promise<readonly TrayLine[]> => phone.store.read(['tray'], read_tray);

/** Refuses these lines for ever, takes the rest. */
function refuses(codes: Readonly<Record<Id, string>>): TestPhone['answer'] {
  let seq = 0;
  return (request) => {
    if (!is_push(request)) return nothing_new();
    const receipts = lines_of(request).map(({ written: { id } }) => {
      const code = codes[id];
      return code === undefined
        ? { id, result: 'accepted', seq: (seq += 1) }
        : {
            id,
            result: 'refused',
            code,
            message: `${code}, in words`,
            permanent: true,
            facts: { where: 'body' },
          };
    });
    return json({ receipts, now: NOW_TEXT });
  };
}

/** A lot whose put-away is refused, a suspect in it and a decision on that. */
async function refused_family(): Promise<{ phone: TestPhone; lines: readonly Line[] }> {
  const phone = await test_phone();
  const [lot, suspect, decision] = [phone.mint_id(), phone.mint_id(), phone.mint_id()];
  const lines = await phone.keep(
    { id: lot, kind: 'put_away', body: { crop: 'carrot', grams: -1 } },
    { id: suspect, kind: 'suspect', body: { lot } },
    { id: decision, kind: 'decision', body: { suspect } },
    take(),
  );
  phone.answer = refuses({ [lot]: 'grams', [suspect]: 'parent_refused', [decision]: 'parent_refused' });
  await phone.cycle();
  return { phone, lines };
}

describe('the tray', () => {
  it('shows what was refused, why, and what hangs on it', async () => {
    const { phone, lines } = await refused_family();
    const shown = await tray(phone);
    expect(shown.map((row) => [row.written.kind, row.refusal.code, row.mendable])).toEqual([
      ['put_away', 'grams', true],
      ['suspect', 'parent_refused', true],
      ['decision', 'parent_refused', true],
    ]);
    expect(shown[0]?.refusal).toMatchObject({ message: 'grams, in words', facts: { where: 'body' } });
    expect(shown[0]?.children).toEqual([shown[1]?.id, shown[2]?.id]);
    const standings = await phone.rows('entries');
    expect(standings.find((row) => row.id === lines[0]?.written.id)?.standing).toBe('refused');
  });

  it('mending keeps the id, takes a new number, and sends back what hangs on it', async () => {
    const { phone, lines } = await refused_family();
    const [parent] = await tray(phone);
    const back = await mend(phone)(parent?.id ?? '', { crop: 'carrot', grams: 900 });
    expect(back.map((line) => line.written.kind)).toEqual(['put_away', 'suspect', 'decision']);
    expect(one_of(back).written).toEqual({
      ...lines[0]?.written,
      device_no: 5,
      body: { crop: 'carrot', grams: 900 },
    });
    expect(back[1]?.written).toEqual(lines[1]?.written);
    phone.answer = takes_all(2);
    await phone.cycle();
    expect((await phone.rows('entries')).every((row) => row.standing === 'sent')).toBe(true);
  });

  it('the refused wording stays readable, settled', async () => {
    const { phone, lines } = await refused_family();
    await mend(phone)((await tray(phone))[0]?.id ?? '', { grams: 900 });
    const shown = await tray(phone);
    expect(shown.map((row) => row.settled)).toEqual(['mended', 'sent_again', 'sent_again']);
    expect(shown[0]?.written).toEqual(lines[0]?.written);
    expect((await phone.store.read(STATUS_STORES, read_status)).needs_you).toBe(0);
  });

  it('a mended line that is refused again is a row of its own', async () => {
    const { phone, lines } = await refused_family();
    await mend(phone)((await tray(phone))[0]?.id ?? '', { grams: -2 });
    phone.answer = refuses({ [lines[0]?.written.id ?? '']: 'grams' });
    await phone.cycle();
    expect(
      (await tray(phone)).filter((row) => row.written.kind === 'put_away').map((row) => row.settled),
    ).toEqual(['mended', undefined]);
  });

  it('the same wording goes back with its own number', async () => {
    const { phone, lines } = await refused_family();
    const [, suspect] = await tray(phone);
    expect(one_of(await send_again(phone)(suspect?.id ?? '')).written).toEqual(lines[1]?.written);
    expect(await phone.rows('outbox')).toHaveLength(2);
  });

  it('invariant 13: only a person lets go of a line, and it can be read here still', async () => {
    const { phone, lines } = await refused_family();
    const [parent] = await tray(phone);
    await drop(phone)(parent?.id ?? '');
    expect((await phone.rows('entries')).map((row) => row.id)).not.toContain(lines[0]?.written.id);
    const shown = await tray(phone);
    expect(shown[0]).toMatchObject({ settled: 'dropped', written: lines[0]?.written });
    // What hung on it needs a word of its own.
    expect(shown.slice(1).map((row) => row.settled)).toEqual([undefined, undefined]);
  });

  it('a row is settled once', async () => {
    const { phone } = await refused_family();
    const id = (await tray(phone))[0]?.id ?? '';
    await drop(phone)(id);
    await expect(mend(phone)(id, {})).rejects.toMatchObject({ why: 'not_found' });
    await expect(drop(phone)(id)).rejects.toMatchObject({ why: 'not_found' });
    await expect(send_again(phone)('nowhere')).rejects.toMatchObject({ why: 'not_found' });
  });

  it('what was erased cannot be mended', async () => {
    const phone = await test_phone();
    const line = one_of(await phone.keep(take()));
    phone.answer = refuses({ [line.written.id]: 'erased' });
    await phone.cycle();
    const row = one_of(await tray(phone));
    expect(row.mendable).toBe(false);
    await expect(mend(phone)(row.id, {})).rejects.toMatchObject({ why: 'not_mendable' });
    await expect(send_again(phone)(row.id)).rejects.toMatchObject({ why: 'not_mendable' });
  });

  it('a line whose id another one has is written anew under an id of its own', async () => {
    const phone = await test_phone();
    const line = one_of(await phone.keep(take()));
    phone.answer = refuses({ [line.written.id]: 'id_reused' });
    await phone.cycle();
    const row = one_of(await tray(phone));
    expect(row.mendable).toBe(false);
    await expect(send_again(phone)(row.id)).rejects.toMatchObject({ why: 'not_mendable' });
    const anew = one_of(await mend(phone)(row.id, row.written.body));
    expect(anew.written.id).not.toBe(line.written.id);
    expect(anew.written).toMatchObject({ body: line.written.body, device_no: 2 });
    expect((await phone.rows('outbox')).map((queued) => queued.id)).toEqual([anew.written.id]);
    expect((await tray(phone))[0]?.settled).toBe('mended');
  });

  it('under a reused id the line that others have stays', async () => {
    const phone = await test_phone();
    const mine = one_of(await phone.keep(take(1)));
    const theirs = { ...mine, written: { ...mine.written, device: 'other', body: { lot: LOT, grams: 9 } } };
    phone.answer = (request) =>
      is_push(request)
        ? refuses({ [mine.written.id]: 'id_reused' })(request)
        : page([row_of(theirs, 1)], '1.1');
    await phone.cycle();
    await drop(phone)((await tray(phone))[0]?.id ?? '');
    expect(await phone.rows('entries')).toMatchObject([{ standing: 'sent', written: { device: 'other' } }]);
  });

  it("a line that came by another phone's hand after all is not sent again", async () => {
    const { phone, lines } = await refused_family();
    const suspect = lines[1];
    if (suspect === undefined) throw new Error('no suspect');
    phone.answer = (request) => (is_push(request) ? refuses({})(request) : page([row_of(suspect, 9)], '1.9'));
    await phone.cycle();
    const row = (await tray(phone)).find((one) => one.written.id === suspect.written.id);
    await send_again(phone)(row?.id ?? '');
    expect(await phone.rows('outbox')).toEqual([]);
    expect((await tray(phone)).find((one) => one.id === row?.id)?.settled).toBe('sent_again');
  });

  it('hazard 24: photos of a refused line wait with it, and go with it', async () => {
    const phone = await test_phone();
    const hash = 'a'.repeat(64);
    await keep_photo(phone)({ hash, type: 'image/jpeg', bytes: new ArrayBuffer(4), taken_at: NOW_TEXT }, 'd');
    const line = one_of(await phone.keep(take(1, { photos: [hash] })));
    phone.answer = refuses({ [line.written.id]: 'role' });
    await phone.cycle();
    expect(await phone.rows('photos')).toMatchObject([{ standing: 'held' }]);
    expect((await phone.store.read(STATUS_STORES, read_status)).photos_to_send).toBe(0);
    const [row] = await tray(phone);
    await send_again(phone)(row?.id ?? '');
    expect(await phone.rows('photos')).toMatchObject([{ standing: 'to_send' }]);
    await phone.cycle();
    await drop(phone)(one_of((await tray(phone)).filter((one) => one.settled === undefined)).id);
    expect(await phone.rows('photos')).toEqual([]);
    expect(await phone.rows('pictures')).toEqual([]);
  });
});
