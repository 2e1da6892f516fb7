import { expect, test } from 'vitest';
import type { Sheet } from '../../ledger';
import { varieties_of } from './varieties';

const variety = (name: string, shrink: readonly number[]) => ({
  name,
  lots: 2,
  put_away_grams: 31_000,
  shrink,
});
const ONION = {
  crop: 'onion',
  winters: 2,
  varieties: [variety('Brown Tallis', [8, 14, 22]), variety('Red Maudlin', [19, 27, 37])],
  pairs: [{ better: 'Brown Tallis', than: 'Red Maudlin', chance: 0.91, verdict: 'probably' }],
  side_by_side: false,
};
const sheet = (content: object): Sheet =>
  ({
    key: 'varieties',
    kind: 'varieties',
    as_of: 5,
    made_at: '2026-11-25T03:00:00Z',
    inputs: {},
    content,
  }) as unknown as Sheet;

test('varieties are read with how sure it is that the first keeps better', () => {
  const told = varieties_of([sheet({ after_days: 154, crops: [ONION] })]);
  expect(told).toMatchObject({ after_days: 154 });
  const [best, other] = told?.crops[0]?.varieties ?? [];
  expect(best).toMatchObject({ name: 'Brown Tallis', shrink: [8, 14, 22], behind: undefined });
  expect(other).toMatchObject({ name: 'Red Maudlin', lots: 2, behind: 'probably' });
});

test('a word nobody knows is no word, and one variety alone is no comparison', () => {
  const odd = { ...ONION, pairs: [{ better: 'Brown Tallis', than: 'Red Maudlin', verdict: 'perhaps' }] };
  const told = varieties_of([
    sheet({ after_days: 154, crops: [odd, { ...ONION, varieties: ONION.varieties.slice(1) }] }),
  ]);
  expect(told?.crops).toHaveLength(1);
  expect(told?.crops[0]?.varieties[1]?.behind).toBeUndefined();
});

test('a sheet of another shape reads as none', () => {
  expect(varieties_of([])).toBeUndefined();
  expect(varieties_of([sheet({ crops: [] })])).toBeUndefined();
});
