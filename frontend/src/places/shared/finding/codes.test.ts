import { describe, expect, test } from 'vitest';
import { came_from, find_href } from './came_from';
import { code_address, join_address, lots_of_code, number_in, read_code } from './codes';

describe('what a QR code holds', () => {
  test('is the address of its code, whatever the code is', () => {
    expect(code_address('https://store.example', 'UH-412')).toBe('https://store.example/#/code/UH-412');
    for (const code of ['UH-412', 'Ä 7/b', '100%', 'x#y?z']) {
      expect(read_code(code_address('http://192.0.2.7:8000', code))).toEqual({ lot: code });
      expect(read_code(join_address('http://192.0.2.7:8000', code))).toEqual({ join: code });
    }
  });
  test('counts from another address too: labels outlive it', () => {
    expect(read_code('http://old.example:8123/#/code/UH-9')).toEqual({ lot: 'UH-9' });
  });
  test('may be the bare code', () => {
    expect(read_code(' UH-0412 ')).toEqual({ lot: 'UH-0412' });
  });
  test.each([
    'https://example.org/menu',
    'WIFI:T:WPA;S:barn;P:secret;;',
    '',
    '#/code/%E0%A4%A',
    '#/code/%20',
  ])('is none of ours: %s', (text) => {
    expect(read_code(text)).toBeUndefined();
  });
});

describe('the number in a code', () => {
  test.each([
    ['UH-412', 'UH-', 412],
    ['uh412', 'UH-', 412],
    ['UH-0412', 'UH-', 412],
    ['412', 'UH-', 412],
    ['0412', '', 412],
    ['XY-412', 'UH-', undefined],
    ['blue', 'UH-', undefined],
  ])('%s with codes that begin %s', (code, prefix, number) => {
    expect(number_in(code, prefix)).toBe(number);
  });
});

describe('lots that bear a code', () => {
  const lots = [
    { id: 'gone', code: 'UH-1', finished: true },
    { id: 'stands', code: 'UH-1', finished: false },
    { id: 'other', code: 'UH-11', finished: false },
    { id: 'own', code: 'blue crate', finished: false },
    { id: 'none', code: null, finished: false },
    { id: 'eaten', code: 'UH-5', finished: true },
  ];
  test.each([
    ['UH-1', ['stands']],
    ['1', ['stands']],
    ['uh 11', ['other']],
    ['Blue crate', ['own']],
    ['UH-5', ['eaten']],
    ['UH-12', []],
  ])('%s', (code, ids) => {
    expect(lots_of_code(lots, code, 'UH-').map((lot) => lot.id)).toEqual(ids);
  });
});

test('the way back from finding leads where one came from, and nowhere else', () => {
  const back = (href: string) => came_from(href.split('?')[1]);
  expect(back(find_href('/rounds'))).toBe('/rounds');
  expect(back(find_href('/store/lot/0190'))).toBe('/store/lot/0190');
  expect(came_from('from=https%3A%2F%2Fexample.org')).toBe('/store');
  expect(came_from('from=%2F%2Fexample.org')).toBe('/store');
  expect(came_from(undefined)).toBe('/store');
});
