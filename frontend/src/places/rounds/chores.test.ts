import { describe, expect, test } from 'vitest';
import type { RecordNow } from '../../ledger/index.ts';
import { choresOf, isFor, pickOverKey, readPickOver } from './chores.ts';
import { Cellar } from './made_up.ts';
import { standingOn } from '../shared/standing.ts';

const today = '2026-11-20';
function cellar(): Cellar {
  const made = new Cellar();
  made.write('put_away', '2026-11-01T10:00', { crop: 'cabbage', space: 'cellar', pieces: 20 }, { id: 'lot' });
  made.write(
    'suspect',
    '2026-11-18T17:00',
    { lot: 'lot', findings: ['mould'], lies: 'set_apart' },
    { id: 'sus', person: 'wil' },
  );
  return made;
}
const chores = (made: Cellar, records: readonly RecordNow[] = []) =>
  choresOf(made.whole(today), made.held, records, today);
const kinds = (made: Cellar) => chores(made).map(({ chore }) => chore);

describe('chores', () => {
  test('a suspect asks to be decided on until somebody does', () => {
    const made = cellar();
    expect(chores(made)).toMatchObject([{ chore: 'decide', day: '2026-11-18', suspect: { id: 'sus' } }]);
    made.write(
      'decision',
      '2026-11-19T09:00',
      { suspect: 'sus', do: 'trim', doer: 'tom', by: '2026-11-19' },
      { id: 'dec' },
    );
    expect(chores(made)).toMatchObject([{ chore: 'carry_out', key: 'dec', doer: 'tom', day: '2026-11-19' }]);
    made.write('chore_done', '2026-11-19T18:00', { chore: 'dec' });
    expect(chores(made)).toEqual([]);
  });
  test('who takes a chore on has it', () => {
    const made = cellar();
    made.write('decision', '2026-11-19T09:00', { suspect: 'sus', do: 'compost' }, { id: 'dec' });
    expect(chores(made).every((chore) => isFor(chore, 'ruth'))).toBe(true);
    made.write('claim', '2026-11-19T10:00', { chore: 'dec' }, { person: 'wil' });
    expect(chores(made)).toMatchObject([{ doer: 'wil' }]);
    expect(chores(made).every((chore) => isFor(chore, 'ruth'))).toBe(false);
  });
  test('a lot to be picked over is a claim named after its inspection, until every piece was looked at', () => {
    const made = cellar();
    const sample = {
      lot: 'lot',
      space: 'cellar',
      way: 'sample',
      looked: 10,
      counted: false,
      seen: [{ finding: 'mould', pieces: 1 }],
    };
    made.write('inspection', '2026-11-19T17:00', sample, { id: 'seen' });
    made.write('claim', '2026-11-19T17:01', { chore: pickOverKey('seen', '2026-11-20') }, { id: 'claim' });
    expect(chores(made)).toContainEqual(
      expect.objectContaining({ chore: 'pick_over', day: '2026-11-20', doer: 'ana', findings: ['mould'] }),
    );
    made.write('inspection', '2026-11-20T08:00', {
      lot: 'lot',
      space: 'cellar',
      way: 'all',
      looked: 20,
      counted: false,
    });
    expect(kinds(made)).not.toContain('pick_over');
  });
  test('struck with its inspection or with its claim it is no chore', () => {
    const made = cellar();
    const sample = {
      lot: 'lot',
      space: 'cellar',
      way: 'sample',
      looked: 10,
      counted: false,
      seen: [{ finding: 'mould' }],
    };
    made.write('inspection', '2026-11-19T17:00', sample, { id: 'seen' });
    made.write('claim', '2026-11-19T17:01', { chore: pickOverKey('seen', '2026-11-20') }, { id: 'claim' });
    made.write('strike', '2026-11-19T17:02', {}, { strikes: 'seen' });
    expect(kinds(made)).not.toContain('pick_over');
  });
  test('a key that is none reads as none', () => {
    expect(readPickOver(pickOverKey('seen', '2026-11-20'))).toEqual({
      inspection: 'seen',
      day: '2026-11-20',
    });
    expect(readPickOver('0198/2026-11-20')).toBeUndefined();
  });
});

describe('standing chores', () => {
  const record = (values: RecordNow['values'], id = 'pail'): RecordNow => ({
    type: 'chore',
    id,
    values: { name: 'Pail to the hens', ...values },
    rev: 1,
    field_revs: {},
    pending: [],
  });
  // 20 November 2026 is a Friday (ISO 8601 day 5).
  test('fall on their weekdays, every day where none is named', () => {
    expect(standingOn(today, [record({ weekdays: [5] })])).toMatchObject([
      { key: 'pail/2026-11-20', name: 'Pail to the hens' },
    ]);
    expect(standingOn(today, [record({ weekdays: [1] })])).toEqual([]);
    expect(standingOn(today, [record({})])).toHaveLength(1);
  });
  test('stay within their months, over the new year too', () => {
    expect(standingOn(today, [record({ from_month: 11, to_month: 3 })])).toHaveLength(1);
    expect(standingOn('2026-06-20', [record({ from_month: 11, to_month: 3 })])).toEqual([]);
    expect(standingOn('2026-06-20', [record({ from_month: 5, to_month: 8 })])).toHaveLength(1);
  });
  test('put away they are none', () => {
    expect(standingOn(today, [record({ archived: true })])).toEqual([]);
  });
  test('are open until done that day', () => {
    const made = cellar();
    expect(chores(made, [record({ doer: 'pip' })])).toContainEqual(
      expect.objectContaining({ chore: 'standing', doer: 'pip' }),
    );
    made.write('chore_done', '2026-11-20T08:00', { chore: 'pail/2026-11-20' });
    expect(chores(made, [record({})]).map(({ chore }) => chore)).not.toContain('standing');
  });
});

describe('the animals’ pail', () => {
  const hens: RecordNow = {
    type: 'animals',
    id: 'hens',
    values: { name: 'Hens', kind: 'laying_hen' },
    rev: 1,
    field_revs: {},
    pending: [],
  };
  const put_in = (made: ReturnType<typeof cellar>) =>
    made.write('scrap', '2026-11-20T08:00', {
      findings: ['sound'],
      went: [{ step: 'animals', animals: 'hens', grams: 700, cut_in: 'yard' }],
    });
  const kinds = (made: ReturnType<typeof cellar>) => chores(made, [hens]).map(({ chore }) => chore);

  test('is no chore until an adult has looked into it', () => {
    const made = cellar();
    put_in(made);
    expect(kinds(made)).not.toContain('carry_pail');
    made.write('pail', '2026-11-20T09:00', { animals: 'hens', mixed: false });
    expect(kinds(made)).toContain('carry_pail');
  });
  test('carried, what lies is to be taken up', () => {
    const made = cellar();
    put_in(made);
    const look = made.write('pail', '2026-11-20T09:00', { animals: 'hens', mixed: false });
    made.write('chore_done', '2026-11-20T10:00', { chore: `pail/${look}/2026-11-20` });
    expect(kinds(made)).toContain('take_up');
    made.write('chore_done', '2026-11-20T16:00', { chore: `take_up/${look}/2026-11-20` });
    expect(kinds(made)).not.toContain('take_up');
  });
  test('a mixed one is never carried', () => {
    const made = cellar();
    put_in(made);
    made.write('pail', '2026-11-20T09:00', { animals: 'hens', mixed: true });
    expect(kinds(made)).not.toContain('carry_pail');
  });
});
