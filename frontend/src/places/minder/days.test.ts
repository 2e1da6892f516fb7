import { describe, expect, test } from 'vitest';
import { chores_on, series_after } from './days.ts';
import type { Chore, Week } from './document.ts';

const chore = (name: string, day: string, at = ''): Chore => ({
  key: `${name}/${day}`,
  day,
  at,
  name,
  note: '',
  animals: '',
  needs: [],
  cautions: [],
  photo: '',
});
const week = (...chores: readonly Chore[]): Week => ({
  household: '',
  from: '2026-12-01',
  until: '2026-12-05',
  way: '',
  note: '',
  ring: [],
  animals: [],
  chores,
  walks: [],
  spaces: [],
  lots: [],
  home: [],
});

describe('a minder’s days', () => {
  const told = week(
    chore('Shut in', '2026-12-01', '16:30'),
    chore('Feed', '2026-12-01', '08:00'),
    chore('Feed', '2026-12-02', '08:00'),
    chore('Feed', '2026-12-03', '08:00'),
    chore('Post', '2026-12-03'),
  );
  test('hold the chores of the day by their hour', () => {
    expect(chores_on(told, '2026-12-01').map(({ name }) => name)).toEqual(['Feed', 'Shut in']);
  });
  test('tell what comes after once, with its days', () => {
    expect(series_after(told, '2026-12-01')).toEqual([
      { name: 'Post', at: '', days: ['2026-12-03'] },
      { name: 'Feed', at: '08:00', days: ['2026-12-02', '2026-12-03'] },
    ]);
    expect(series_after(told, '2026-12-03')).toEqual([]);
  });
});
