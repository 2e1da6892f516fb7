import { expect, test } from 'vitest';
import { find, findable } from './search';

const rows = [
  findable('a', ['Carrot', 'Möhre', 'Long Ember', 'Root cellar', 'box 2', 'soft rot'], 'UH-0412'),
  findable('b', ['Äpfel', 'Harrow', 'Cold room', 'tray 412'], 'UH-0420'),
  findable('c', ['Potato', 'Kartoffel', null, 'Cold room', 'cures'], 'UH-0431'),
  findable('d', ['Beet', null, 'Cold room'], null),
];
const found = (typed: string) => find(rows, typed).map((row) => row.id);

test('nothing typed shows everything', () => {
  expect(found('  ')).toEqual(['a', 'b', 'c', 'd']);
});

test.each([
  ['carrots', ['a']],
  ['möhre', ['a']],
  ['Kartoffeln', ['c']],
  ['uh-0412', ['a']],
  ['UH0412', ['a']],
  ['apfel', ['b']],
  ['ember box', ['a']],
  ['soft rot', ['a']],
  ['cold', ['b', 'c', 'd']],
  ['cold curing', []],
  ['potatoes', ['c']],
  ['turnip', []],
])('%s finds %j', (typed, ids) => {
  expect(found(typed)).toEqual(ids);
});

test('the number of a code comes before a name that holds it', () => {
  expect(found('412')).toEqual(['a', 'b']);
  expect(found('0420')).toEqual(['b']);
});

test('names that begin with what was typed come before those that hold it', () => {
  const two = [findable('late', ['Cold carrot']), findable('first', ['Carrot'])];
  expect(find(two, 'carrot').map((row) => row.id)).toEqual(['first', 'late']);
});
