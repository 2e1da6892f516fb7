import { describe, expect, test } from 'vitest';
import type { RecordNow, Sheet } from '../../ledger/index.ts';
import { ahead_of, minutes_of } from './ahead.ts';
import { chore_sheet } from '../shared/chore_sheet.ts';
import { Cellar } from './made_up.ts';
import { walksOf } from './roster.ts';

const today = '2026-11-20';
const feed: RecordNow = {
  type: 'chore',
  id: 'feed',
  values: { name: 'Feed', minutes: 10 },
  rev: 1,
  field_revs: {},
  pending: [],
};
const sheet = (key: string, kind: string, content: Sheet['content']): Sheet => ({
  key,
  kind,
  as_of: 1,
  made_at: '',
  inputs: {},
  content,
  behind: false,
});
// Shapes as in docs/sheets.md.
const roster = sheet('roster/cellar', 'roster', {
  space: 'cellar',
  walks: [
    { day: '2026-11-20', latest: '2026-11-23', who: 'ana', minutes: 16, lots: ['a'] },
    { day: '2026-11-27', latest: '2026-11-30', who: 'ana', minutes: 12, lots: ['a', 'b'] },
    { day: '2026-12-20', latest: '2026-12-23', who: 'ana', minutes: 12, lots: ['a'] },
  ],
});
const chores = sheet('chores', 'chores', {
  day: today,
  chores: [
    {
      key: 'feed/2026-11-21',
      what: 'standing',
      day: '2026-11-21',
      latest: '2026-11-21',
      who: 'wil',
      minutes: 10,
    },
    {
      key: 'feed/2026-11-22',
      what: 'standing',
      day: '2026-11-22',
      latest: '2026-11-22',
      who: 'ana',
      minutes: 10,
    },
  ],
  people: [{ person: 'ana', can: 240, gave: 95, asked: 60 }],
});
const ahead = (made: Cellar, me: string, sheets: readonly Sheet[] = [roster, chores]) => {
  const whole = made.whole(today);
  const walks = walksOf(sheets, whole);
  return ahead_of({ walks, sheet: chore_sheet(sheets), records: [feed], whole, today }, me);
};

describe('the next 14 days', () => {
  test('one’s own stand first, a series of one chore is one row, today and what is further are left out', () => {
    const { mine, others, nobodys } = ahead(new Cellar(), 'ana');
    expect(mine).toMatchObject([
      { what: 'standing', name: 'Feed', days: ['2026-11-22'] },
      { what: 'walk', space: 'cellar', days: ['2026-11-27'], lots: 2 },
    ]);
    expect(others).toMatchObject([{ key: 'feed/2026-11-21', who: 'wil' }]);
    expect(nobodys).toHaveLength(1);
    expect(nobodys[0]?.days).toHaveLength(12);
    expect(minutes_of(mine)).toBe(22);
  });
  test('what a clock asks for in more than 14 days is not told yet', () => {
    const turn = (day: string) => ({
      key: `turn_heap/left/${day}`,
      what: 'turn_heap',
      day,
      latest: day,
      who: 'ana',
    });
    const sheets = [
      sheet('chores', 'chores', { day: today, chores: [turn('2026-12-04'), turn('2026-12-05')], people: [] }),
    ];
    expect(ahead(new Cellar(), 'ana', sheets).mine.flatMap(({ days }) => days)).toEqual(['2026-12-04']);
  });
  test('with no sheet the phone tells what it knows itself', () => {
    const { nobodys } = ahead(new Cellar(), 'ana', []);
    expect(nobodys).toMatchObject([{ name: 'Feed', minutes: 10 }]);
    expect(nobodys[0]?.days).toHaveLength(14);
  });
  test('given away it is nobody’s, done it is gone', () => {
    const made = new Cellar();
    made.write('offer', '2026-11-20T08:00', { chore: 'roster/cellar/2026-11-27' }, { person: 'ana' });
    expect(ahead(made, 'ana').nobodys[0]).toMatchObject({ name: 'Feed' });
    expect(ahead(made, 'ana').nobodys.map(({ what }) => what)).toContain('walk');
    made.write('chore_done', '2026-11-20T09:00', { chore: 'roster/cellar/2026-11-27' });
    expect(ahead(made, 'ana').nobodys.map(({ what }) => what)).not.toContain('walk');
  });
});

describe('the chores’ sheet', () => {
  test('of another shape reads as none', () => {
    expect(chore_sheet([sheet('chores', 'chores', 'later')])).toEqual({ day: '', asked: [], people: [] });
    const odd = { chores: [{ what: 3 }, 7], people: 'all' };
    expect(chore_sheet([sheet('chores', 'chores', odd)])).toMatchObject({ asked: [], people: [] });
  });
  test('tells minutes of each person', () => {
    expect(chore_sheet([chores]).people).toEqual([{ person: 'ana', can: 240, gave: 95, asked: 60 }]);
  });
});
