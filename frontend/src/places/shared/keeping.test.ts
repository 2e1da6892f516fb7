import { expect, test } from 'vitest';
import { changed_fields } from './keeping';

test('only what was changed is sent, so that two people’s edits of different fields both stand', () => {
  const before = { name: 'Loft', kind: 'loft', cautions: ['ladder'], order: 2 };
  expect(changed_fields(before, { ...before, name: 'Upper loft' })).toEqual({ name: 'Upper loft' });
  expect(changed_fields(before, { cautions: ['ladder', 'weight'] })).toEqual({
    cautions: ['ladder', 'weight'],
  });
  expect(changed_fields(before, before)).toEqual({});
});

test('a field that was cleared is sent as null, one that never was is not', () => {
  expect(changed_fields({ minutes_a_week: 60 }, { minutes_a_week: null })).toEqual({ minutes_a_week: null });
  expect(changed_fields({}, { minutes_a_week: null })).toEqual({});
});
