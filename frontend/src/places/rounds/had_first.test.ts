import { describe, expect, test } from 'vitest';
import { Cellar } from './made_up.ts';
import { had_first, whose } from '../shared/whose.ts';

const KEY = 'feed/2026-11-20';
const today = '2026-11-20';

describe('whose a chore is (docs/fold.md F19)', () => {
  test('it is whom the sheet names, until somebody takes it on', () => {
    const made = new Cellar();
    expect(whose(made.whole(today), KEY, 'tom')).toBe('tom');
    made.write('offer', '2026-11-20T07:00', { chore: KEY }, { person: 'tom' });
    made.write('claim', '2026-11-20T08:00', { chore: KEY }, { person: 'wil' });
    expect(whose(made.whole(today), KEY, 'tom')).toBe('wil');
  });
  test('given away it is nobody’s, unless a later sheet gave it to another', () => {
    const made = new Cellar();
    made.write('offer', '2026-11-20T07:00', { chore: KEY }, { person: 'tom' });
    expect(whose(made.whole(today), KEY, 'tom')).toBeUndefined();
    expect(whose(made.whole(today), KEY, undefined)).toBeUndefined();
    expect(whose(made.whole(today), KEY, 'ana')).toBe('ana');
  });
  test('taken on and given away again it is free', () => {
    const made = new Cellar();
    made.write('claim', '2026-11-20T07:00', { chore: KEY }, { person: 'wil' });
    made.write('offer', '2026-11-20T08:00', { chore: KEY }, { person: 'wil' });
    expect(whose(made.whole(today), KEY, 'wil')).toBeUndefined();
  });
});

describe('who took on what another had first', () => {
  const told = (made: Cellar, me: string, day = today) => had_first(made.whole(day), made.held, me, day);

  test('is told who has it, and nobody else is', () => {
    const made = new Cellar();
    made.write('claim', '2026-11-20T08:00', { chore: KEY }, { person: 'wil' });
    made.write('claim', '2026-11-20T07:00', { chore: KEY }, { person: 'ana' });
    // The lower number of the ledger has it, though its clock was later.
    expect(told(made, 'ana')).toEqual([{ key: KEY, by: 'wil' }]);
    expect(told(made, 'wil')).toEqual([]);
    expect(told(made, 'tom')).toEqual([]);
  });
  test('is told no more once it is done, or days after', () => {
    const made = new Cellar();
    made.write('claim', '2026-11-20T08:00', { chore: KEY }, { person: 'wil' });
    made.write('claim', '2026-11-20T07:00', { chore: KEY }, { person: 'ana' });
    expect(told(made, 'ana', '2026-11-22')).toHaveLength(1);
    expect(told(made, 'ana', '2026-11-23')).toEqual([]);
    made.write('chore_done', '2026-11-20T17:00', { chore: KEY }, { person: 'wil' });
    expect(told(made, 'ana')).toEqual([]);
  });
});
