import { describe, expect, test } from 'vitest';
import type { Person } from '../shared/records.ts';
import { who_can_reach } from './reach.ts';

const person = (name: string, role: Person['role'], cannot: readonly string[] = []): Person => ({
  id: name,
  archived: false,
  name,
  role,
  minutes_a_week: undefined,
  may_decide: false,
  values: { cannot: [...cannot] },
});
const ruth = person('ruth', 'keeper', ['ladder']);
const tom = person('tom', 'adult');
const ana = person('ana', 'rounds');
const reach = (...cautions: readonly string[]) =>
  who_can_reach([ruth, tom, ana], cautions).map(({ name }) => name);

describe('who can reach it', () => {
  test('through a door with nothing at it: everybody', () => {
    expect(reach()).toEqual(['ruth', 'tom', 'ana']);
    expect(reach('slippery')).toEqual(['ruth', 'tom', 'ana']);
  });
  test('up a ladder goes nobody who said they cannot', () => {
    expect(reach('ladder')).toEqual(['tom', 'ana']);
  });
  test('where gas may stand no older child is sent', () => {
    expect(reach('gas')).toEqual(['ruth', 'tom']);
  });
  test('where nobody can, everybody is asked', () => {
    expect(who_can_reach([ruth], ['ladder'])).toEqual([ruth]);
  });
});
