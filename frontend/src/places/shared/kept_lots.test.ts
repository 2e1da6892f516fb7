import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Ledger } from '../../ledger';
import { fold_all, lot_at, lot_ids, lot_without_past } from '../../storekeeping/fold';
import type { Line, LotState, Setting } from '../../storekeeping/state';
import { day_after, KeptLots, type Told } from './kept_lots';

const TODAY = '2026-01-20';
const SETTING: Setting = { zone: 'UTC', hemisphere: 'north', figures: { carrot: { count_unit: 'kg' } } };

const line = (device_no: number, kind: string, body: object): Line =>
  ({
    seq: device_no,
    written: {
      ...{ id: `${kind}${device_no}`, household: 'h', device: 'phone', device_no, person: 'ana', kind },
      ...{ schema: 1, dated: 'clock', happened_at: '2026-01-01T08:00:00.000+00:00', body },
    },
  }) as Line;

const LINES = [
  line(1, 'put_away', { crop: 'carrot', space: 'cellar', pack: 'sand', grams: 20_000 }),
  line(2, 'take', { lot: 'put_away1', grams: 900, for: 'eat' }),
];
const folded = fold_all(LINES, SETTING);
const lots_on = (day: string): LotState[] => lot_ids(folded).flatMap((id) => lot_at(folded, id, day) ?? []);
const told: Told = {
  lines: LINES.length,
  setting: SETTING,
  today: TODAY,
  ids: lot_ids(folded),
  lot_on: (id, day) => lot_without_past(folded, id, day),
};

/** A ledger that keeps one text, whose lines can change. */
function ledger(lines = LINES.length) {
  const at = { mark: { lines, text: 'one' }, kept: '', of: '', under: '' };
  const face: Pick<Ledger, 'mark' | 'worked_out' | 'keep_worked_out'> = {
    mark: async () => at.mark,
    worked_out: async (of) => (of === at.of && at.under === at.mark.text ? at.kept : undefined),
    keep_worked_out: async (mark, of, text) => {
      if (mark.text !== at.mark.text) return false;
      Object.assign(at, { kept: text, of, under: mark.text });
      return true;
    },
  };
  return { at, face: face as Ledger };
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

async function kept(rules = 'rules', lines?: number) {
  const { at, face } = ledger(lines);
  const lots = new KeptLots(rules);
  lots.soon(face, () => told);
  await vi.advanceTimersByTimeAsync(6_000);
  return { at, face, lots };
}

const but_history = (lots: readonly LotState[]) => lots.map((lot) => ({ ...lot, history: [] }));

test('what is shown is what the fold says of this day and the next, without histories', async () => {
  const { face, lots } = await kept();
  for (const day of [TODAY, day_after(TODAY)])
    expect(await lots.read(face, SETTING, day), day).toEqual(but_history(lots_on(day)));
  expect(lots_on(TODAY)[0]?.history).not.toEqual([]);
});

test('two days later nothing is shown', async () => {
  const { face, lots } = await kept();
  expect(await lots.read(face, SETTING, '2026-01-22')).toBeUndefined();
});

test('other rules, a moved zone, another figure or another name show nothing', async () => {
  const { face, lots } = await kept();
  expect(await new KeptLots('newer').read(face, SETTING, TODAY)).toBeUndefined();
  const others: Setting[] = [
    { ...SETTING, zone: 'Europe/Vienna' },
    { ...SETTING, figures: { carrot: { count_unit: 'piece' } } },
    { ...SETTING, lots: { put_away1: { label: 'The good ones' } } },
  ];
  for (const other of others) expect(await lots.read(face, other, TODAY)).toBeUndefined();
});

test('a line that came meanwhile shows nothing', async () => {
  const { at, face, lots } = await kept();
  at.mark = { lines: 3, text: 'two' };
  expect(await lots.read(face, SETTING, TODAY)).toBeUndefined();
});

test('what was not folded from all lines is not kept', async () => {
  const { at } = await kept('rules', 3);
  expect(at.kept).toBe('');
});

test('it is kept once nothing has changed for a while', async () => {
  const { at, face } = ledger();
  const lots = new KeptLots('rules');
  lots.soon(face, () => told);
  await vi.advanceTimersByTimeAsync(3_000);
  lots.soon(face, () => told);
  await vi.advanceTimersByTimeAsync(3_000);
  expect(at.kept).toBe('');
  await vi.advanceTimersByTimeAsync(3_000);
  expect(at.kept).not.toBe('');
});

test.each([3_000, 4_200])('after the household was left, at %i ms, nothing is kept', async (left) => {
  const { at, face } = ledger();
  const lots = new KeptLots('rules');
  lots.soon(face, () => told);
  await vi.advanceTimersByTimeAsync(left);
  lots.forget();
  await vi.advanceTimersByTimeAsync(9_000);
  expect(at.kept).toBe('');
});

test('a change of another window, heard of after the mark was taken, is waited for', async () => {
  const { at, face } = ledger();
  const lots = new KeptLots('rules');
  lots.soon(face, () => told);
  await vi.advanceTimersByTimeAsync(4_200);
  lots.soon(face, () => ({ ...told, lines: 3 }));
  await vi.advanceTimersByTimeAsync(9_000);
  expect(at.kept).toBe('');
});

test('the day after is the next one, over the end of a month too', () => {
  expect(day_after('2026-02-28')).toBe('2026-03-01');
  expect(day_after('2026-12-31')).toBe('2027-01-01');
});
