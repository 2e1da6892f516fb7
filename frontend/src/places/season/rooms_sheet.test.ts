import { expect, test } from 'vitest';
import type { Id, Json, Line, Sheet } from '../../ledger';
import type { Fact } from '../../storekeeping/state';
import { drawn, line_of, WIDTH } from './room_line';
import { rooms_of } from './rooms_sheet';

const TODAY = '2026-11-25';
const ROOM = {
  space: 's',
  last: { when: '2026-11-25T16:00:00+00:00', temp_c: 4, rh_pct: 90, dew_c: 2.5 },
  lately: [2, 5],
  week: [2.1, 3.4, 4.8],
  weeks: [{ from: '2026-11-18', band: [2.1, 3.4, 4.8], reads: 2, read: [2, 5] }],
  stuck_days: 0,
  wanted: { temp_c: [0, 4.4], rh_pct: [90, 100], freezing_c: -1.4, freezes_first: 'carrot', crossed: false },
  word: 'right',
  neighbours: [{ gives: 'apple', suffers: 'carrot' }],
  costs: [{ crop: 'carrot', best: 't', days: [1, 2, 4] }],
  chilled: [],
  drying: [{ lot: 'l', feels: 'firm', limp_on: ['2026-12-20', '2027-02-01', null] }],
  frost: { level: 'warn', lowest_c: [-1.6, -0.3, 1], by_outside: true },
  vent: { open: true, why: 'too_warm', becomes_pct: 63, shut_at_c: 0.1 },
  outside_helps: null,
};
const sheet = (content: object): Sheet =>
  ({
    key: 'rooms',
    kind: 'rooms',
    as_of: 5,
    made_at: '2026-11-25T17:00:00Z',
    inputs: {},
    content: { day: TODAY, outside: null, rooms: [ROOM], ...content },
  }) as unknown as Sheet;
const fact = (id: string) => ({ id, kind: 'reading' }) as Fact;
const held = (lines: readonly (readonly [Id, number | undefined])[] = [], today = TODAY) => ({
  lines: new Map(lines.map(([id, seq]) => [id, { seq } as unknown as Line])),
  today,
});

test('a room is read as the sheet tells it', () => {
  const rooms = rooms_of([sheet({})], [], held());
  expect(rooms?.behind).toBe(false);
  expect(rooms?.rooms[0]).toMatchObject({
    word: 'right',
    lately: [2, 5],
    wanted: { temp_c: [0, 4.4], freezes_first: 'carrot' },
    frost: { level: 'warn', lowest_c: [-1.6, -0.3, 1] },
    vent: { open: true, becomes_pct: 63 },
    drying: [{ limp_on: ['2026-12-20', '2027-02-01', ''] }],
    outside_helps: undefined,
  });
});

test('a reading written since makes it behind; one the sheet knew does not', () => {
  const told = [sheet({})];
  expect(rooms_of(told, [fact('a')], held([['a', 5]]))?.behind).toBe(false);
  expect(rooms_of(told, [fact('a')], held([['a', 6]]))?.behind).toBe(true);
  expect(rooms_of(told, [fact('a')], held([['a', undefined]]))?.behind).toBe(true);
  expect(rooms_of(told, [], held([], '2026-11-27'))?.behind).toBe(true);
});

test('a room the server could not work out is there with why, and nothing else', () => {
  const [room] =
    rooms_of([sheet({ rooms: [{ space: 's', amiss: 'temp_c is 70.' }] })], [], held())?.rooms ?? [];
  expect(room).toMatchObject({ space: 's', amiss: 'temp_c is 70.', weeks: [], week: undefined });
});

test('no sheet, or one of another shape, tells nothing', () => {
  expect(rooms_of([], [], held())).toBeUndefined();
  expect(rooms_of([sheet({ rooms: 'many' as Json as never })], [], held())?.rooms).toEqual([]);
});

const room = (told: object) => {
  const [found] = rooms_of([sheet({ rooms: [{ ...ROOM, ...told }] })], [], held())?.rooms ?? [];
  if (!found) throw new Error('no room');
  return found;
};

test('all rooms stand on one line, from under frost to the warmest', () => {
  const line = line_of([room({}), room({ lately: [8, 13.2], week: [7, 10, 14.6] })]);
  expect([line.low, line.high]).toEqual([-2, 15]);
  expect(line.x(-2)).toBe(0);
  expect(line.x(15)).toBe(WIDTH);
  expect(line.x(40)).toBe(WIDTH);
  expect(line.marks).toContain(0);
});

test('a freezer is not drawn, nor does it press the others together', () => {
  const freezer = room({ lately: [-19, -17], week: [-20, -18, -16], wanted: null });
  expect(drawn(freezer)).toBe(false);
  expect(line_of([room({}), freezer]).low).toBe(-2);
});
