import { expect, test } from 'vitest';
import type { Line, Sheet } from '../../ledger';
import { fold_all, lot_at, type Folded } from '../../storekeeping/fold';
import type { LotState } from '../../storekeeping/state';
import type { Held } from '../shared/since';
import { outlook_of } from './outlook';
import { months_of, shapes_of, span_of, WIDTH } from './plot';

const TODAY = '2026-11-25';
const LOT = '0190c1a5-0000-7000-8000-000000000001';
const NEW_LOT = '0190c1a5-0000-7000-8000-000000000002';

function line(id: string, kind: string, body: object, day: number, seq?: number): Line {
  const written = {
    id,
    household: 'h',
    device: 'd',
    device_no: day,
    person: 'p',
    kind,
    schema: 1,
    happened_at: `2026-11-${day}T10:00:00.000+01:00`,
    dated: 'clock',
    body,
  };
  const standing = seq === undefined ? 'waiting' : 'sent';
  return { written, standing, ...(seq !== undefined && { seq }) } as unknown as Line;
}
const put_away = (id = LOT, seq?: number) =>
  line(id, 'put_away', { crop: 'carrot', space: 's', grams: 20_000, measured: 'weighed' }, 11, seq);
const take = () =>
  line('0190c1a5-0000-7000-8000-100000000001', 'take', { lot: LOT, grams: 5000, measured: 'weighed' }, 12);

const CONTENT = {
  crop: 'carrot',
  day: TODAY,
  weeks: [
    [18_000, 20_000, 21_000],
    [13_000, 15_000, 17_000],
    [4000, 9000, 12_000],
  ],
  run_out_days: [16, 20, 400],
  harvest: { day: '2026-12-24', chance: 0.03 },
  lots: [{ lot: LOT, pieces: [180, 200, 210], in_56_days: [1, 2, 3], faster: 1 }],
};
const sheet = (content: object = CONTENT): Sheet =>
  ({
    key: 'outlook/carrot',
    kind: 'outlook',
    as_of: 5,
    made_at: '2026-11-25T03:00:00Z',
    inputs: {},
    content,
  }) as unknown as Sheet;

function look(lines: readonly Line[], sheets: readonly Sheet[] = [sheet()], today = TODAY) {
  const setting = {
    zone: 'Europe/Berlin',
    hemisphere: 'north',
    figures: { carrot: { piece_g: 100 } },
  } as const;
  const folded: Folded = fold_all(lines, setting);
  const lot = (id: string) => lot_at(folded, id, today);
  const held: Held = { lines: new Map(lines.map((one) => [one.written.id, one])), lot, setting, today };
  const lots = [LOT, NEW_LOT].map(lot).filter((one): one is LotState => one !== undefined);
  return outlook_of('carrot', sheets, lots, held);
}

test('a sheet that knew every line is told as it stands', () => {
  expect(look([put_away(LOT, 5)])).toMatchObject({
    weeks: CONTENT.weeks,
    reach: [16, 20, 400],
    harvest: { chance: 0.03 },
    behind: false,
    moved: 0,
  });
});

test('what was taken since moves the band and the reach, and the chance stays as it was', () => {
  const moved = look([put_away(LOT, 5), take()]);
  expect(moved).toMatchObject({ behind: true, moved: -5000, harvest: { chance: 0.03 } });
  expect(moved?.weeks).toEqual([
    [13_000, 15_000, 16_000],
    [8000, 10_000, 12_000],
    [0, 4000, 7000],
  ]);
  // A quarter of 20 kg that fall to nothing in 20 days are 5 days; what lasts past the sheet's end still does.
  expect(moved?.reach).toEqual([11, 15, 400]);
});

test('a lot put away since is added', () => {
  expect(look([put_away(LOT, 5), put_away(NEW_LOT)])).toMatchObject({ behind: true, moved: 20_000 });
});

test('a lot the sheet knew but could say nothing of moves nothing', () => {
  expect(look([put_away(LOT, 5), take()], [sheet({ ...CONTENT, lots: [] })])).toMatchObject({ moved: 0 });
});

test('a sheet of a day gone by is behind', () => {
  expect(look([put_away(LOT, 5)], [sheet()], '2026-11-27')).toMatchObject({ behind: true, moved: 0 });
});

test('a crop with no sheet, or one of another shape, has no outlook', () => {
  expect(look([put_away(LOT, 5)], [])).toBeUndefined();
  expect(look([put_away(LOT, 5)], [sheet({ ...CONTENT, weeks: 'many' })])).toBeUndefined();
});

test('with no weekly use told there is a band and no reach', () => {
  const outlook = look([put_away(LOT, 5)], [sheet({ ...CONTENT, run_out_days: null, harvest: null })]);
  expect(outlook).toMatchObject({ weeks: CONTENT.weeks, reach: undefined, harvest: undefined });
});

test('the band starts at the left, and a new harvest past the days shown is not drawn', () => {
  const outlook = look([put_away(LOT, 5)]);
  if (!outlook) throw new Error('no outlook');
  const shapes = shapes_of(outlook, { from: TODAY, days: 58 });
  expect(shapes.likeliest).toMatch(/^M0,4L/); // 20 of at most 21 kg, in a box of 84
  expect(shapes.harvest).toBeCloseTo(WIDTH / 2);
  expect(shapes_of(outlook, { from: TODAY, days: 20 }).harvest).toBeUndefined();
  expect(span_of([outlook])).toEqual({ from: TODAY, days: 56 });
});

test('months stand on their first day, and every second one where they are many', () => {
  expect(months_of({ from: TODAY, days: 100 }).map((one) => one.day)).toEqual(['2027-01-01', '2027-02-01']);
  const many = months_of({ from: TODAY, days: 280 }).map((one) => one.day);
  expect(many).toEqual(['2027-02-01', '2027-04-01', '2027-06-01', '2027-08-01']);
});
