import { expect, test } from 'vitest';
import type { Line, Sheet } from '../../ledger';
import { fold_all, lot_at } from '../../storekeeping/fold';
import { on_the_turn } from './on_the_turn';
import { since, type Held } from './since';

const TODAY = '2026-11-25';
const LOT = '0190c1a5-0000-7000-8000-000000000001';
let number = 0;

function line(kind: string, body: object, seq?: number, more: object = {}): Line {
  number += 1;
  const id =
    kind === 'put_away' ? LOT : `0190c1a5-0000-7000-8000-1000000000${String(number).padStart(2, '0')}`;
  const written = {
    id,
    household: 'h',
    device: 'd',
    device_no: number,
    person: 'p',
    kind,
    schema: 1,
    happened_at: `2026-11-${String(10 + number)}T10:00:00.000+01:00`,
    dated: 'clock',
    body,
    ...more,
  };
  return {
    written,
    standing: seq === undefined ? 'waiting' : 'sent',
    ...(seq !== undefined && { seq }),
  } as unknown as Line;
}

function held(lines: readonly Line[]): Held {
  const setting = {
    zone: 'Europe/Berlin',
    hemisphere: 'north',
    figures: { carrot: { piece_g: 100 } },
  } as const;
  const folded = fold_all(lines, setting);
  return {
    lines: new Map(lines.map((one) => [one.written.id, one])),
    lot: (id) => lot_at(folded, id, TODAY),
    setting,
    today: TODAY,
  };
}

const put_away = () => {
  number = 0;
  return line('put_away', { crop: 'carrot', space: 's', grams: 20_000, measured: 'weighed' }, 5);
};
const of = (lines: readonly Line[], as_of: number) => {
  const all = held(lines);
  const lot = all.lot(LOT);
  if (!lot) throw new Error('the lot does not stand');
  return since(lot, as_of, all);
};

test('what the sheet knew has not moved', () => {
  expect(of([put_away(), line('take', { lot: LOT, grams: 2000, for: 'eat' }, 6)], 6)).toEqual({
    behind: false,
    pieces: 0,
    grams: 0,
    share: 1,
  });
});

test('a take not sent yet and one sent after the sheet both count', () => {
  const lines = [
    put_away(),
    line('take', { lot: LOT, grams: 2000, for: 'eat' }, 9),
    line('take', { lot: LOT, grams: 3000, for: 'eat' }),
  ];
  expect(of(lines, 6)).toEqual({ behind: true, pieces: -50, grams: -5000, share: 0.75 });
});

test('a strike of what the sheet knew gives it back', () => {
  const take = line('take', { lot: LOT, grams: 2000, for: 'eat' }, 6);
  const lines = [put_away(), { ...take, written: { ...take.written, device_no: 2 } }];
  const strike = line('strike', {}, undefined, { strikes: take.written.id });
  expect(of([...lines, strike], 6)).toMatchObject({ behind: true, grams: 2000 });
});

test('a lot that came after the sheet is all new', () => {
  expect(of([put_away()], 4)).toMatchObject({ behind: true, grams: 20_000 });
});

const sheet = (content: unknown): Sheet =>
  ({
    key: 'on_the_turn',
    kind: 'on_the_turn',
    as_of: 5,
    made_at: '',
    inputs: {},
    content,
    behind: false,
  }) as Sheet;
const turning = { lot: LOT, share: 0.1, grams: 2000, lost: [1000, 1900, 3000], showing_grams: 400 };

test('what is on the turn shrinks with what was taken, and a finished lot is gone from it', () => {
  const half = [put_away(), line('take', { lot: LOT, grams: 10_000, for: 'eat' })];
  const [one] = on_the_turn([sheet({ day: TODAY, lots: [turning] })], held(half))?.lots ?? [];
  expect(one).toMatchObject({ grams: 1000, lost: [500, 950, 1500], showing_grams: 200, behind: true });
  const all = [put_away(), line('take', { lot: LOT, grams: 1000, for: 'eat', last: true })];
  expect(on_the_turn([sheet({ day: TODAY, lots: [turning] })], held(all))?.lots).toEqual([]);
});

test('a sheet of another shape reads as none', () => {
  expect(on_the_turn([sheet('other')], held([put_away()]))).toBeUndefined();
  expect(on_the_turn([], held([put_away()]))).toBeUndefined();
  expect(on_the_turn([sheet({ lots: [{ lot: LOT }] })], held([put_away()]))?.lots).toEqual([]);
});
