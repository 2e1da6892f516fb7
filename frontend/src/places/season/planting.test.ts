import { expect, test } from 'vitest';
import type { Sheet } from '../../ledger';
import { changes, had, planting_of, to_sow, type CropPlan } from './planting';
import { scale_to, WIDTH } from './scale';

const CARROT = {
  crop: 'carrot',
  weeks: 30,
  told: false,
  need: [15_000, 21_000, 29_000],
  seed_grams: 0,
  kept_pct: 72,
  own_lots: 0,
  edible: [0.85, 0.74],
  put_away: [22_000, 30_000, 45_000],
  plant: {
    unit: 'metre',
    grams: 1500,
    published_grams: 1500,
    row: 'planting:carrot/yield/1',
    evidence: 'seen',
    own: false,
    numbers: [20, 28, 33],
  },
  winters: [
    {
      winter: 2025,
      put_away: 24_000,
      eaten: 14_000,
      given: 0,
      put_by: 0,
      lost: 3000,
      left: 7000,
      ended: null,
    },
  ],
};
const sheet = (content: object): Sheet =>
  ({
    key: 'planting',
    kind: 'planting',
    as_of: 5,
    made_at: '2026-11-25T03:00:00Z',
    inputs: {},
    content,
  }) as unknown as Sheet;
const told = (crops: readonly object[] = [CARROT]) => sheet({ crops, unknown: ['swede'] });
const none = () => undefined;

test('a sheet is read as it stands', () => {
  const planting = planting_of([told()], none);
  expect(planting?.unknown).toEqual(['swede']);
  expect(planting?.crops[0]).toMatchObject({
    crop: 'carrot',
    need: [15_000, 21_000, 29_000],
    edible: [0.85, 0.74],
    plant: { unit: 'metre', grams: 1500, own: false, numbers: [20, 28, 33] },
  });
  expect(planting?.crops[0]?.winters[0]).toMatchObject({ winter: 2025, ended: '', left: 7000 });
});

test('an own yield entered since is reckoned with at once', () => {
  // Twice the yield is half the row.
  const [plan] = planting_of([told()], () => 3)?.crops ?? [];
  expect(plan?.plant).toMatchObject({ grams: 3000, published_grams: 1500, own: true, numbers: [10, 14, 17] });
});

test('an own yield taken back leaves the printed one', () => {
  const own = { ...CARROT.plant, grams: 3000, own: true, numbers: [10, 14, 17] };
  const [plan] = planting_of([told([{ ...CARROT, plant: own }])], none)?.crops ?? [];
  expect(plan?.plant).toMatchObject({ grams: 1500, own: false, numbers: [20, 28, 34] });
});

test('a sheet of another shape reads as none, a crop of another shape is left out', () => {
  expect(planting_of([], none)).toBeUndefined();
  expect(planting_of([sheet({ crops: 'many' })], none)).toBeUndefined();
  expect(planting_of([told([{ crop: 'leek' }, CARROT])], none)?.crops.map((one) => one.crop)).toEqual([
    'carrot',
  ]);
});

test('what is sown next stands first, what is being sown now before it', () => {
  const sown = (crop: string, from: number, until: number) =>
    ({ crop, plant: {}, sow: { from, until, row: '' } }) as unknown as CropPlan;
  const tree = { crop: 'apple', sow: undefined, plant: undefined } as unknown as CropPlan;
  const crops = [
    sown('carrot', 4, 6),
    sown('garlic', 10, 12),
    tree,
    sown('onion', 2, 4),
    sown('wheat', 12, 1),
  ];
  expect(to_sow(crops, 11).map(({ crop }) => crop)).toEqual(['garlic', 'wheat', 'onion', 'carrot']);
  expect(to_sow(crops, 1).map(({ crop }) => crop)).toEqual(['wheat', 'onion', 'carrot', 'garlic']);
});

test('what is wanted most beside the last winter is said first, and small changes are not', () => {
  const plan = (crop: string, wanted: number, last: number): CropPlan =>
    ({ crop, plant: {}, put_away: [0, wanted, 0], winters: [{ put_away: last }] }) as unknown as CropPlan;
  const plans = [
    plan('a', 110, 100),
    plan('b', 150, 100),
    plan('c', 300, 100),
    plan('d', 160, 100),
    plan('e', 40, 100),
  ];
  const { more, less } = changes(plans);
  expect(more.map((one) => one.crop)).toEqual(['c', 'd']);
  expect(less.map((one) => one.crop)).toEqual(['e']);
  expect(had(plan('f', 1, 7))).toBe(7);
  const tree = { ...plan('g', 900, 100), plant: undefined };
  expect(changes([tree]).more).toEqual([]);
});

test('the line ends at a round number past the largest', () => {
  const scale = scale_to([3, 27, 37]);
  expect(scale.marks).toEqual([0, 10, 20, 30, 40]);
  expect(scale.x(20)).toBe(WIDTH / 2);
  expect(scale.x(90)).toBe(WIDTH);
  expect(scale_to([], 1000).top).toBe(1000);
});
