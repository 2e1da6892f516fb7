import { expect, test } from 'vitest';
import type { Body, RecordNow } from '../../ledger';
import { folds_alike, lot_records, manner_of, own_figures, setting_of } from './setting';

const record = (type: string, id: string, values: Body): RecordNow => ({
  type,
  id,
  values,
  rev: 1,
  field_revs: {},
  pending: [],
});

test('the fold stands on the household’s own zone and side of the earth', () => {
  const household = record('household', 'h', { zone: 'Pacific/Auckland', hemisphere: 'south' });
  expect(setting_of(household, [], {})).toMatchObject({ zone: 'Pacific/Auckland', hemisphere: 'south' });
});

test('before the household is known a day is a day on this phone', () => {
  expect(setting_of(undefined, [], {})).toMatchObject({
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    hemisphere: 'north',
  });
});

test('a lot is described by what its record says, and a cleared field says nothing', () => {
  const records = [
    record('lot', 'l', { code: 'UH-7', variety: '', winter: 2024 }),
    record('space', 's', { code: 'x' }),
  ];
  expect(lot_records(records)).toEqual({ l: { code: 'UH-7', winter: 2024 } });
});

test('units and the week follow the household', () => {
  expect(manner_of({ units: 'imperial', week_start: 'sunday', zone: 'America/Denver' })).toEqual({
    weight: 'lb',
    temp: 'F',
    length: 'in',
    week_start: 7,
    zone: 'America/Denver',
  });
  expect(manner_of({})).toMatchObject({ weight: 'kg', temp: 'C', week_start: 1 });
});

test('an own figure or another zone folds the lots again, a lot’s new name does not', () => {
  const base = setting_of(undefined, [], { carrot: { piece_g: 100 } });
  expect(folds_alike(base, { ...base, lots: { l: { label: 'box 2' } } })).toBe(true);
  expect(folds_alike(base, { ...base, figures: { carrot: { piece_g: 90 } } })).toBe(false);
  expect(folds_alike(base, { ...base, zone: 'Asia/Tokyo' })).toBe(false);
});

test('own figures and crops are read from their records', () => {
  const figure = record('figure', 'f', {
    table: 'piece_weights',
    key: 'carrot',
    column: 'piece_g',
    value: 90,
  });
  const crop = record('crop', 'c', { name: 'Oca', like: 'potato' });
  expect(own_figures([figure, crop])).toEqual({
    figures: [{ table: 'piece_weights', key: 'carrot', column: 'piece_g', value: 90, archived: false }],
    crops: [{ id: 'c', like: 'potato', count_unit: null }],
  });
});
