// @vitest-environment node
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { let_in_store } from './doubles.ts';
import { codes_left, drop_code, take_code, take_codes } from './numbers.ts';
import { read_meta, type Store } from './store.ts';

const left = (store: Store) => store.read(['meta'], async (tx) => codes_left(await read_meta(tx, 'codes')));
const next = (store: Store) => store.write(['meta'], take_code);

describe('lot numbers of this phone', () => {
  it('set aside for blank labels are never given to a lot by themselves', async () => {
    const store = await let_in_store();
    expect(await store.write(['meta'], (tx) => take_codes(tx, 3))).toEqual([1, 2, 3]);
    expect(await next(store)).toBe(4);
    expect(await left(store)).toBe(36);
  });

  it('are set aside as far as they go', async () => {
    const store = await let_in_store();
    expect(await store.write(['meta'], (tx) => take_codes(tx, 50))).toHaveLength(40);
    expect(await next(store)).toBeUndefined();
    expect(await store.write(['meta'], (tx) => take_codes(tx, 1))).toEqual([]);
  });

  it.each([
    ['the next one', 1, [2, 3]],
    ['one in the middle', 2, [1, 3]],
    ['one of another phone', 77, [1, 2]],
  ])('go on without %s, once it was given by hand', async (_which, given, then) => {
    const store = await let_in_store();
    await store.write(['meta'], (tx) => drop_code(tx, given));
    expect([await next(store), await next(store)]).toEqual(then);
  });

  it('end where the last of the block was given by hand', async () => {
    const store = await let_in_store();
    await store.write(['meta'], (tx) => drop_code(tx, 40));
    expect(await store.write(['meta'], (tx) => take_codes(tx, 40))).toHaveLength(39);
  });
});
