import { expect, test } from 'vitest';
import type { Taken } from '../../storekeeping/soil';
import { hindrance, NOTHING_SPREAD, spread_body } from './spreading';

const taken = (sure: boolean): readonly Taken[] => [
  { disease: 'club_root', sure, crop: 'swede', day: '2026-10-01', kin: ['kale', 'swede'], rows: [] },
];
const same = (crop: string): string => crop;
const asked = (more: object, all: readonly Taken[], table = same) =>
  hindrance({ ...NOTHING_SPREAD, ...more }, all, table);

test('a heap that took nothing in goes on any bed, and nobody is asked', () => {
  expect(asked({}, [])).toBeUndefined();
  expect(asked({ grows: 'kale' }, [])).toBeUndefined();
});

test('a marked heap asks what is to grow there', () => {
  expect(asked({}, taken(true))).toBe('grows');
  expect(asked({ grows: 'carrot' }, taken(true))).toBeUndefined();
});

test('kin is refused where it is sure, and asked about where it may be', () => {
  expect(asked({ grows: 'kale' }, taken(true))).toBe('kin');
  expect(asked({ grows: 'kale', seen: true }, taken(true))).toBe('kin');
  expect(asked({ grows: 'kale' }, taken(false))).toBe('maybe');
  expect(asked({ grows: 'kale', seen: true }, taken(false))).toBeUndefined();
});

test('an own crop is judged as the one it is like', () => {
  expect(asked({ grows: 'ours' }, taken(true), () => 'swede')).toBe('kin');
});

test('what lies there already is written as an accident', () => {
  expect(asked({ grows: 'kale', accident: true }, taken(true))).toBeUndefined();
  expect(spread_body({ ...NOTHING_SPREAD, bed: ' by the wall ', grows: 'kale', accident: true })).toEqual({
    did: 'spread',
    bed: 'by the wall',
    grows: 'kale',
    accident: true,
  });
  expect(spread_body(NOTHING_SPREAD)).toEqual({ did: 'spread' });
});
