import { describe, expect, test } from 'vitest';
import type { Json, Sheet } from '../../ledger/index.ts';
import { rosterOf } from './roster.ts';

const sheet = (content: Json, kind = 'roster'): Sheet => ({
  key: 'roster/cellar',
  kind,
  as_of: 1,
  made_at: '',
  inputs: {},
  content,
  behind: false,
});
// The shape is that of docs/sheets.md.
const cellar = {
  space: 'cellar',
  walks: [{ day: '2026-11-27', who: 'ana', minutes: 16, lots: ['a'] }],
  lots: [{ lot: 'a', days: 14, last_look: '2026-11-13', due: '2026-11-27', minutes: 6 }],
};

describe('the roster', () => {
  test('gives days by lot and who walks which space', () => {
    expect(rosterOf([sheet(cellar)], {})).toEqual({ days: { a: 14 }, on: {}, who: { cellar: ['ana'] } });
  });
  test('tells of which day its days are', () => {
    expect(rosterOf([sheet({ ...cellar, day: '2026-11-25' })], {}).on).toEqual({ a: '2026-11-25' });
  });
  test('on the last day in time another has it too', () => {
    const last_day = { ...cellar, walks: [{ ...cellar.walks[0], also: 'tom' }] };
    expect(rosterOf([sheet(last_day)], {}).who).toEqual({ cellar: ['ana', 'tom'] });
  });
  test('whoever took the walk on has it', () => {
    const claims = { 'roster/cellar/2026-11-27': { entry: 'c', person: 'wil', when_ms: 0, others: [] } };
    expect(rosterOf([sheet(cellar)], claims).who).toEqual({ cellar: ['wil'] });
  });
  test('nobody can: nobody has it', () => {
    expect(rosterOf([sheet({ ...cellar, walks: [{ ...cellar.walks[0], who: null }] })], {}).who).toEqual({});
    expect(rosterOf([sheet({ ...cellar, walks: [] })], {}).who).toEqual({});
  });
  test('another kind or shape reads as none', () => {
    expect(rosterOf([sheet(cellar, 'tally'), sheet('later'), sheet({ space: 3, lots: 'all' })], {})).toEqual({
      days: {},
      on: {},
      who: {},
    });
  });
});
