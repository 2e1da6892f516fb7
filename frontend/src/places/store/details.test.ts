import { expect, test } from 'vitest';
import { changed_fields } from '../shared/keeping';
import { code_fits, details_of, fields_of } from './details';

const lot = { label: null, variety: 'Long Ember', code: 'UH-412', winter: 2026 };
const before = details_of(lot, { notes: 'by the door' });

test('only what was written anew is sent, so that two edits of different fields both stand', () => {
  const after = { ...before, label: ' For Easter ', winter: 2027 };
  expect(changed_fields(fields_of(before), fields_of(after))).toEqual({ label: 'For Easter', winter: 2027 });
  expect(changed_fields(fields_of(before), fields_of(before))).toEqual({});
});
test('what was cleared is sent as null', () => {
  expect(changed_fields(fields_of(before), fields_of({ ...before, notes: ' ' }))).toEqual({ notes: null });
});
test.each([
  ['UH-412', true],
  ['', true],
  ['blue crate', false],
  ['A123456789-123456', false],
])('a label may say %s: %s', (code, fits) => {
  expect(code_fits(code)).toBe(fits);
});
