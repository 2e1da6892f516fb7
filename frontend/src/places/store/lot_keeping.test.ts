import { expect, test } from 'vitest';
import type { Id, Line, Sheet } from '../../ledger';
import type { LotState } from '../../storekeeping/state';
import { HEIGHT, shapes_of, WIDTH } from './keeping_plot';
import { keeping_of, silent_of } from './lot_keeping';

const TODAY = '2026-12-20';
const KEEPING = {
  from: '2026-10-11',
  sound: [82, 89, 94],
  expected: [93, 96, 98],
  curve: [
    [100, 100, 100],
    [97, 99, 100],
    [95, 98, 99],
    [92, 95, 98],
    [60, 75, 85],
    [20, 45, 60],
    [0, 1, 2],
    [0, 0, 0],
  ],
  looks: [
    ['2026-11-08', 97, 97],
    ['2026-12-13', 90, 90],
  ],
  word: 'behind',
};
const sheet = (keeping: object = KEEPING): Sheet =>
  ({
    key: 'outlook/carrot',
    kind: 'outlook',
    as_of: 5,
    made_at: '2026-12-20T03:00:00Z',
    inputs: {},
    content: { crop: 'carrot', day: TODAY, lots: [{ lot: 'lot', look_days: 4, keeping }] },
  }) as unknown as Sheet;

interface Made {
  readonly id: string;
  readonly kind?: string;
  readonly body?: object;
  readonly seq?: number;
  readonly counts?: boolean;
}
const look = (looked: number, out: number, way = 'all') => ({ way, looked, out: [{ pieces: out }] });
function asked(made: readonly Made[], sheets = [sheet()], today = TODAY) {
  const lines = new Map<Id, Line>(
    made.map(({ id, body = {}, seq }) => [id, { seq, written: { id, body } } as unknown as Line]),
  );
  const history = made.map(({ id, kind = 'inspection', counts = true }) => ({
    id,
    kind,
    counts,
    day: today,
  }));
  const lot = { id: 'lot', crop: 'carrot', history } as unknown as LotState;
  return keeping_of(lot, sheets, { lines, today });
}

test('what the sheet says stands as it was worked out', () => {
  expect(asked([{ id: 'a', seq: 5 }])).toMatchObject({
    sound: [82, 89, 94],
    expected: [93, 96, 98],
    word: 'behind',
    look_days: 4,
    behind: false,
  });
});

test('a round walked since adds its ring: 18 out of 90 leave four fifths of the share before', () => {
  const keeping = asked([
    { id: 'a', seq: 5 },
    { id: 'b', body: look(90, 18) },
  ]);
  expect(keeping?.behind).toBe(true);
  expect(keeping?.rings.map((ring) => ring.share)).toEqual([97, 90, 72]);
});

test('two rounds since are two rings, and one that was struck is none', () => {
  const keeping = asked([
    { id: 'a', body: look(10, 1) },
    { id: 'b', body: look(10, 5), counts: false },
    { id: 'c', body: look(10, 1) },
  ]);
  expect(keeping?.rings.map((ring) => ring.share)).toEqual([97, 90, 81, 73]);
});

test('a sample tells of all, and leaves the rest as it was', () => {
  const keeping = asked([
    { id: 'a', body: look(30, 3, 'sample') },
    { id: 'b', body: look(30, 6, 'sample') },
  ]);
  expect(keeping?.rings.map((ring) => ring.share)).toEqual([97, 90, 81, 72]);
});

test('a take since adds no ring but says as of', () => {
  const keeping = asked([{ id: 'a', kind: 'take', body: { pieces: 4 } }]);
  expect(keeping?.behind).toBe(true);
  expect(keeping?.rings).toHaveLength(2);
});

test('a round that told no pieces, and one that was not looked at, add no ring', () => {
  const keeping = asked([
    { id: 'a', body: { way: 'all', looked: 30, out: [{ grams: 300 }] } },
    { id: 'b', body: { way: 'none' } },
  ]);
  expect(keeping?.rings).toHaveLength(2);
});

test('a sheet of a day gone by is behind; a lot it does not know has none', () => {
  expect(asked([], [sheet()], '2026-12-22')?.behind).toBe(true);
  expect(asked([], [])).toBeUndefined();
  expect(asked([], [sheet({ ...KEEPING, curve: 'many' })])).toBeUndefined();
});

test('a lot nothing can be said of has a reason', () => {
  const content = { silent: [{ lot: 'lot', why: 'no_figures' }] };
  const turning = { kind: 'on_the_turn', content } as unknown as Sheet;
  expect(silent_of({ id: 'lot' }, [turning])).toBe('no_figures');
  expect(silent_of({ id: 'other' }, [turning])).toBe('');
  expect(silent_of({ id: 'lot' }, [])).toBe('');
});

test('the band ends where hardly any is expected, and rings stand on their day and share', () => {
  const keeping = asked([]);
  if (!keeping) throw new Error('no keeping');
  const shapes = shapes_of(keeping);
  expect(shapes.days).toBe(6 * 28);
  expect(shapes.likeliest.startsWith('M0,0L')).toBe(true);
  expect(shapes.rings[0]).toEqual({ x: (28 / 168) * WIDTH, y: expect.closeTo(HEIGHT * 0.03) });
  expect(shapes.now).toEqual({
    x: expect.closeTo((70 / 168) * WIDTH),
    low: expect.closeTo(HEIGHT * 0.18),
    high: expect.closeTo(HEIGHT * 0.06),
  });
  expect(shapes.months.map((one) => one.day)).toEqual([
    '2026-11-01',
    '2026-12-01',
    '2027-01-01',
    '2027-02-01',
    '2027-03-01',
  ]);
});
