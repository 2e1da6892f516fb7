import { expect, test } from 'vitest';
import { fold_all, lot_at, lot_ids, state_at } from '../../storekeeping/fold';
import type { Line, Setting } from '../../storekeeping/state';
import { by_id } from './by_id';
import { Whole } from './whole';

const SETTING: Setting = { zone: 'UTC', hemisphere: 'north', figures: { carrot: { count_unit: 'kg' } } };
const TODAY = '2026-01-20';

const line = (device_no: number, kind: string, body: object, id = `${kind}${device_no}`): Line =>
  ({
    seq: device_no,
    written: {
      ...{ id, household: 'h', device: 'phone', device_no, person: 'ana', kind, schema: 1, dated: 'clock' },
      happened_at: `2026-01-${String(device_no).padStart(2, '0')}T08:00:00.000+00:00`,
      body,
    },
  }) as Line;

const LINES = [
  line(1, 'put_away', { crop: 'carrot', space: 'cellar', pack: 'sand', grams: 20_000 }, 'lot'),
  line(2, 'take', { lot: 'lot', grams: 900, for: 'eat' }),
  line(3, 'reading', { space: 'cellar', temp_c: 3 }),
  line(4, 'suspect', { lot: 'lot', findings: ['unsure'], lies: 'held' }, 'doubt'),
  line(5, 'decision', { suspect: 'doubt', do: 'compost' }, 'judged'),
  line(6, 'claim', { chore: 'judged' }),
  line(7, 'scrap', { lot: 'lot', went: [{ step: 'compost', grams: 40 }] }),
  line(8, 'chore_done', { chore: 'turn/heap' }),
];

test('each part, asked for by itself, is what the fold of everything says', () => {
  const folded = fold_all(LINES, SETTING);
  const lots = by_id(
    lot_ids(folded)
      .map((id) => lot_at(folded, id, TODAY))
      .filter((lot) => lot !== undefined),
    (lot) => lot.id,
  );
  const all = state_at(folded, TODAY);
  const whole = new Whole(folded, TODAY, lots);
  for (const part of Object.keys(all) as (keyof typeof all)[]) expect(whole[part], part).toEqual(all[part]);
  expect(all.went.length + all.facts.length + Object.keys(all.claims).length).toBeGreaterThan(2);
});

test('a part is worked out once', () => {
  const whole = new Whole(fold_all(LINES, SETTING), TODAY, new Map());
  expect(whole.went).toBe(whole.went);
});
