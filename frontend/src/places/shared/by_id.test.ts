import { expect, test } from 'vitest';
import { by_id, changed } from './by_id';

test('a changed map is a new one, and the old one stays as it was', () => {
  const before = by_id([{ id: 'a' }, { id: 'b' }], (row) => row.id);
  const after = changed(before, [
    ['b', undefined],
    ['c', { id: 'c' }],
  ]);
  expect([...after.keys()]).toEqual(['a', 'c']);
  expect([...before.keys()]).toEqual(['a', 'b']);
});
