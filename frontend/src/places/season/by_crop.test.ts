import { expect, test } from 'vitest';
import type { LotState } from '../../storekeeping/state';
import { stock_by_crop } from './by_crop';

const tallies = (more: object) => ({ put_away: 0, eaten: 0, given: 0, shrink: 0, put_by: 0, ...more });
const lot = (id: string, crop: string, more: object = {}): LotState =>
  ({
    id,
    crop,
    winter: 2025,
    born_by: 'put_away',
    finished: false,
    known: 'counted',
    shown: { grams: 10_000, pieces: 100 },
    tallies: tallies({ put_away: 12_000 }),
    ...more,
  }) as unknown as LotState;
const by_name = (a: string, b: string) => a.localeCompare(b);

test('lots of a crop are added, and are as sure as the least sure', () => {
  const [carrot] = stock_by_crop([lot('a', 'carrot'), lot('b', 'carrot', { known: 'presumed' })], by_name);
  expect(carrot).toMatchObject({ lots: 2, grams: 20_000, pieces: 200, known: 'presumed', put_away: 24_000 });
});

test('a weight that is not known of one lot is not known of the crop', () => {
  const jars = lot('b', 'jar', { shown: { grams: null, pieces: 9 } });
  expect(stock_by_crop([lot('a', 'jar'), jars], by_name)[0]).toMatchObject({ grams: null, pieces: 109 });
});

test('what became of the rest counts lots of the same winter, finished ones too, and a moved part once', () => {
  const gone = lot('b', 'onion', {
    finished: true,
    tallies: tallies({ put_away: 5000, eaten: 4000, shrink: 1000 }),
  });
  const moved = lot('c', 'onion', { born_by: 'move', tallies: tallies({ put_away: 3000, eaten: 500 }) });
  const old = lot('d', 'onion', {
    winter: 2024,
    finished: true,
    tallies: tallies({ put_away: 9000, eaten: 9000 }),
  });
  const [onion] = stock_by_crop([lot('a', 'onion'), gone, moved, old], by_name);
  expect(onion).toMatchObject({ lots: 2, put_away: 17_000, eaten: 4500, lost: 1000 });
});

test('a crop that is all gone is not listed', () => {
  expect(stock_by_crop([lot('a', 'pear', { finished: true })], by_name)).toEqual([]);
});
