import { expect, test } from 'vitest';
import { find, findable } from './search';

const rows = [
  findable('a', ['Carrot', 'Long Ember', 'UH-0412', 'Root cellar', 'box 2']),
  findable('b', ['Äpfel', 'Harrow', 'UH-0420', 'Cold room']),
  findable('c', ['Potato', null, 'UH-0431', 'Cold room']),
];
const found = (typed: string) => find(rows, typed).map((row) => row.id);

test('nothing typed shows everything', () => {
  expect(found('  ')).toEqual(['a', 'b', 'c']);
});

test.each([
  ['carrots', ['a']],
  ['412', ['a']],
  ['uh-0412', ['a']],
  ['apfel', ['b']],
  ['ember box', ['a']],
  ['cold', ['b', 'c']],
  ['potatoes', ['c']],
  ['turnip', []],
])('%s finds %j', (typed, ids) => {
  expect(found(typed)).toEqual(ids);
});
