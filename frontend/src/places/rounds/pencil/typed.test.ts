import { expect, test } from 'vitest';
import { typed_entries, type TypedLot, type TypedRound } from './typed.ts';

const lot = (more: Partial<TypedLot>): TypedLot => ({
  lot: 'l',
  mark: 'sound',
  whole: false,
  looked: 20,
  out: 0,
  finding: 'rot',
  to: 'compost',
  ...more,
});
const round = (lots: readonly TypedLot[], more: Partial<TypedRound> = {}): TypedRound => ({
  round: 'r',
  space: 's',
  day: '2026-11-24',
  now: '2026-11-25T09:00:00.000Z',
  temp_c: undefined,
  rh_pct: undefined,
  lots,
  ...more,
});
const looks = (...lots: readonly TypedLot[]) =>
  typed_entries(round(lots))
    .filter(({ kind }) => kind === 'inspection')
    .map(({ body }) => body);

test('all of it is dated by the person, with the day that stands on the paper', () => {
  const entries = typed_entries(round([lot({})], { temp_c: 2.5, rh_pct: 91 }));
  expect(entries.map(({ kind, day }) => [kind, day])).toEqual([
    ['round', '2026-11-24'],
    ['reading', '2026-11-24'],
    ['inspection', '2026-11-24'],
  ]);
  expect(entries[1]?.body).toEqual({ space: 's', round: 'r', temp_c: 2.5, rh_pct: 91 });
});

test('of today it is dated by the clock: noon may not have come', () => {
  const [written] = typed_entries(round([lot({})], { day: undefined }));
  expect(written).not.toHaveProperty('day');
  expect(written?.body).toMatchObject({ began_at: '2026-11-25T09:00:00.000Z' });
});

test('sound is a look that counts nothing', () => {
  expect(looks(lot({}), lot({ whole: true, looked: undefined }))).toEqual([
    { lot: 'l', round: 'r', space: 's', way: 'sample', looked: 20, counted: false },
    { lot: 'l', round: 'r', space: 's', way: 'all', counted: false },
  ]);
});

test('what was taken out went where it says, and no fewer were looked at', () => {
  expect(looks(lot({ mark: 'some', out: 3, looked: 2, to: 'bin' }))).toEqual([
    {
      lot: 'l',
      round: 'r',
      space: 's',
      way: 'sample',
      looked: 3,
      counted: false,
      seen: [{ finding: 'rot', pieces: 3 }],
      out: [{ pieces: 3, findings: ['rot'], went: [{ step: 'bin' }] }],
    },
  ]);
});

test('something seen and nothing taken out is a finding only', () => {
  expect(looks(lot({ mark: 'some' }))).toMatchObject([{ seen: [{ finding: 'rot' }], looked: 20 }]);
  expect(looks(lot({ mark: 'some' }))[0]).not.toHaveProperty('out');
});

test('not looked at is no evidence', () => {
  expect(looks(lot({ mark: 'not' }))).toEqual([
    { lot: 'l', round: 'r', space: 's', way: 'none', why_not: 'other', counted: false },
  ]);
});

test('a line nobody wrote on writes nothing, nor does an empty paper', () => {
  expect(looks(lot({ mark: 'blank' }), lot({}))).toHaveLength(1);
  expect(typed_entries(round([lot({ mark: 'blank' })]))).toEqual([]);
});
