import { describe, expect, test } from 'vitest';
import type { Body, RecordNow } from '../../ledger/index.ts';
import { NO_CHORES, type AskedFor, type ChoreSheet } from '../shared/chore_sheet.ts';
import { Cellar } from './made_up.ts';
import { tonight_of } from './tonight.ts';

const today = '2026-11-20';
const record = (values: Body, id = 'shut'): RecordNow => ({
  type: 'chore',
  id,
  values: { name: 'Shut the hens in', ...values },
  rev: 1,
  field_revs: {},
  pending: [],
});
const asked = (more: Partial<AskedFor>): AskedFor => ({
  key: 'vent/loft/2026-11-20',
  what: 'vent',
  day: today,
  latest: today,
  who: undefined,
  minutes: 5,
  needs: [],
  at: '',
  tonight: true,
  name: '',
  space: 'loft',
  ...more,
});
const tonight = (
  made: Cellar,
  { records = [], sheet = NO_CHORES }: { records?: readonly RecordNow[]; sheet?: ChoreSheet } = {},
) => tonight_of({ sheet, records, whole: made.whole(today), holds: new Set(['cellar', 'loft']), today });

describe('what must be done before dark', () => {
  test('a standing chore of the evening is told with no sheet at all', () => {
    const made = new Cellar();
    expect(tonight(made, { records: [record({ at: '16:30', doer: 'tom' })] })).toMatchObject([
      { what: 'chore', name: 'Shut the hens in', at: '16:30', doer: 'tom' },
    ]);
    expect(tonight(made, { records: [record({ at: '08:00' }), record({}, 'feed')] })).toEqual([]);
  });
  test('it is told once, and no more when it is done', () => {
    const made = new Cellar();
    const row = asked({ key: 'shut/2026-11-20', what: 'standing', at: '16:30', who: 'wil', name: 'Shut' });
    const known = { records: [record({ at: '16:30' })], sheet: { ...NO_CHORES, asked: [row] } };
    expect(tonight(made, known)).toHaveLength(1);
    made.write('chore_done', '2026-11-20T16:00', { chore: 'shut/2026-11-20' });
    expect(tonight(made, known)).toEqual([]);
  });
  test('the sheet’s airing and frost are told with their space; of another day they are not', () => {
    const sheet = {
      ...NO_CHORES,
      asked: [asked({}), asked({ key: 'x', day: '2026-11-21', latest: '2026-11-21' })],
    };
    expect(tonight(new Cellar(), { sheet })).toMatchObject([{ what: 'vent', space: 'loft' }]);
  });
  test('a reading near frost is told, unless the server asks for it already, or nothing lies there', () => {
    const made = new Cellar();
    made.write('reading', '2026-11-19T17:00', { space: 'loft', temp_c: 0.5 });
    made.write('reading', '2026-11-20T07:00', { space: 'shed', temp_c: -2 });
    expect(tonight(made)).toMatchObject([{ what: 'frost_near', space: 'loft', temp_c: 0.5 }]);
    const sheet = { ...NO_CHORES, asked: [asked({ key: 'frost/loft/2026-11-20', what: 'frost' })] };
    expect(tonight(made, { sheet }).map(({ what }) => what)).toEqual(['frost']);
    made.write('reading', '2026-11-20T08:00', { space: 'loft', temp_c: 4 });
    expect(tonight(made)).toEqual([]);
  });
  test('an old reading says nothing of tonight', () => {
    const made = new Cellar();
    made.write('reading', '2026-11-18T17:00', { space: 'loft', temp_c: 0.5 });
    expect(tonight(made)).toEqual([]);
  });
});
