import { describe, expect, test } from 'vitest';
import type { Body, RecordNow } from '../../ledger/index.ts';
import { NO_CHORES, type AskedFor } from './chore_sheet.ts';
import { own_chores } from './own_chores.ts';

const today = '2026-11-20';
const record = (id: string, values: Body): RecordNow => ({
  type: 'chore',
  id,
  values: { name: id, ...values },
  rev: 1,
  field_revs: {},
  pending: [],
});
const nothing = { claims: {}, offers: {}, chores_done: {} };
const asked = (key: string, who: string): AskedFor => ({
  key,
  what: 'standing',
  day: today,
  latest: today,
  who,
  minutes: 5,
  needs: [],
  at: '',
  tonight: false,
  name: '',
  space: undefined,
});
const own = (records: readonly RecordNow[], more: Partial<Parameters<typeof own_chores>[0]> = {}) =>
  own_chores({ sheet: NO_CHORES, records, whole: nothing, today, ...more }, 'wil').map(({ name }) => name);

describe('a small child’s own chores', () => {
  test('are those named for them, by the record or the sheet; nobody’s and others’ are not shown', () => {
    const records = [record('eggs', { doer: 'wil' }), record('water', {}), record('feed', { doer: 'tom' })];
    expect(own(records)).toEqual(['eggs']);
    const sheet = { ...NO_CHORES, asked: [asked(`water/${today}`, 'wil'), asked(`eggs/${today}`, 'tom')] };
    expect(own(records, { sheet })).toEqual(['water']);
  });
  test('stand in the order of their hours, and are gone when done', () => {
    const records = [
      record('shut', { doer: 'wil', at: '16:30' }),
      record('eggs', { doer: 'wil', at: '08:00' }),
    ];
    expect(own(records)).toEqual(['eggs', 'shut']);
    const done = { entry: 'd', person: 'wil', when_ms: 0, day: today, minutes: null, others: [] };
    expect(own(records, { whole: { ...nothing, chores_done: { [`eggs/${today}`]: done } } })).toEqual([
      'shut',
    ]);
  });
});
