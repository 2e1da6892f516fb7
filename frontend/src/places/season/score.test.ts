import { expect, test } from 'vitest';
import type { Sheet } from '../../ledger';
import { score_of, total } from './score';

const band = (of: string, settled: number, within: number) => ({
  of,
  settled,
  within,
  within_handbook: 9,
  interval: 11.5,
  interval_handbook: 30.2,
  pinball: 2,
});
const sheet = (content: object): Sheet =>
  ({
    key: 'score',
    kind: 'score',
    as_of: 5,
    made_at: '2026-11-25T03:00:00Z',
    inputs: {},
    content,
  }) as unknown as Sheet;
const TOLD = {
  made: 60,
  settled: 24,
  bands: [band('sound_28', 20, 16), band('run_out', 4, 3), band('of_the_moon', 4, 3)],
  chances: {
    settled: 24,
    brier: 0.05,
    brier_handbook: 0.08,
    by_fifths: [
      [4, 0],
      [0, 0],
      [0, 0],
      [4, 0.75],
      [16, 1],
    ],
  },
  stretch: 1.1,
};

test('bands and chances are read, all bands together too', () => {
  const score = score_of([sheet(TOLD)]);
  if (!score) throw new Error('no score');
  expect(score).toMatchObject({ made: 60, settled: 24, stretch: 1.1 });
  expect(score.bands.map((one) => one.of)).toEqual(['sound_28', 'run_out']);
  expect(score.chances?.by_fifths[3]).toEqual({ said: 4, came: 3 });
  expect(total(score)).toEqual({ settled: 24, within: 19, within_handbook: 18 });
});

test('a sheet of another shape reads as none, and one with nothing settled has no scores', () => {
  expect(score_of([])).toBeUndefined();
  expect(score_of([sheet({ bands: [] })])).toBeUndefined();
  expect(score_of([sheet({ made: 3, settled: 0, bands: [], chances: null, stretch: 1 })])).toMatchObject({
    made: 3,
    bands: [],
    chances: undefined,
  });
});
