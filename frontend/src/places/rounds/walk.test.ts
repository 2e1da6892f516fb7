import { beforeAll, describe, expect, test } from 'vitest';
import { reference, type Reference } from '../../reference/index.ts';
import { begin, end, goIn, pass, type Walk } from './draft.ts';
import { leadOf, nextDoor, partOfDay } from './home.ts';
import { Cellar } from './made_up.ts';
import {
  byRisk,
  doorFor,
  doorsOf,
  lotsNow,
  lotsToWalk,
  lotsWithin,
  minutesOf,
  NO_ROSTER,
  riskOf,
  type Door,
  type Underfoot,
} from './walk.ts';

let tables: Reference;
beforeAll(async () => {
  tables = await reference('en');
});

const spaces = [
  { id: 'cellar', name: 'Root cellar' },
  { id: 'loft', name: 'Loft' },
];

/** Carrots are due after 14 days, cabbages after 7: looking_over.csv, common practice, no source. */
function stocked(): Cellar {
  const cellar = new Cellar();
  cellar.write(
    'put_away',
    '2026-11-01T10:00',
    { crop: 'carrot', space: 'cellar', spot: 'box 2', grams: 30_000 },
    { id: 'carrot' },
  );
  cellar.write(
    'put_away',
    '2026-11-01T11:00',
    { crop: 'cabbage', space: 'cellar', spot: 'shelf 1', pieces: 20 },
    { id: 'cabbage' },
  );
  cellar.write(
    'put_away',
    '2026-11-01T12:00',
    { crop: 'onion', space: 'loft', grams: 10_000 },
    { id: 'onion' },
  );
  return cellar;
}

function ground(cellar: Cellar, today: string, more: Partial<Underfoot> = {}): Underfoot {
  return {
    today,
    hemisphere: 'north',
    rules: tables.rules,
    crop_of: (lot) => lot.crop,
    looking_over: tables.looking_over,
    spreads: tables.finding_spreads,
    lots: Object.values(cellar.whole(today).lots).filter((lot) => !lot.finished),
    spaces,
    roster: NO_ROSTER,
    walks: [],
    ...more,
  };
}
const at = (space: string, doors: readonly Door[]) => doors.find((door) => door.space === space);
const plan = () => ({ whole: true });
const begun = (lots: readonly string[], now = '2026-11-08T17:00:00.000Z'): Walk =>
  goIn(begin({ round: 'r', space: 'cellar', now, writer: 'ana', with: [], lots }), undefined, plan, now);

describe('what is due', () => {
  test('a space is due with its first lot, late by days, shut before', () => {
    const [loft, cellar] = doorsOf(ground(stocked(), '2026-11-10'));
    expect(cellar).toMatchObject({ space: 'cellar', state: 'lit', due: '2026-11-08', late: 2 });
    expect(loft).toMatchObject({ space: 'loft', due: '2026-11-08' });
    expect(doorsOf(ground(stocked(), '2026-11-05')).map(({ state }) => state)).toEqual(['shut', 'shut']);
  });
  test('a look puts the lot off, "not looked at" does not', () => {
    const cellar = stocked();
    cellar.write('inspection', '2026-11-08T17:00', {
      lot: 'cabbage',
      space: 'cellar',
      way: 'all',
      looked: 20,
      counted: false,
    });
    cellar.write('inspection', '2026-11-08T17:05', {
      lot: 'onion',
      space: 'loft',
      way: 'none',
      why_not: 'no_time',
      counted: false,
    });
    const doors = doorsOf(ground(cellar, '2026-11-09'));
    expect(doors.find(({ space }) => space === 'cellar')?.due).toBe('2026-11-15');
    expect(doors.find(({ space }) => space === 'loft')?.due).toBe('2026-11-08');
  });
  test('an empty space has no door', () => {
    const cellar = stocked();
    cellar.write('count', '2026-11-08T17:00', { lot: 'onion', pieces: 0, gone: 'eaten' });
    expect(doorsOf(ground(cellar, '2026-11-09')).map(({ space }) => space)).toEqual(['cellar']);
  });
  test('a round begun here is a half lit door with what is left of it', () => {
    const walk = pass(
      begun(['cabbage', 'carrot']),
      { told: { what: 'sound' }, entries: ['i'] },
      plan,
      '2026-11-08T17:03:00.000Z',
    );
    const door = at('cellar', doorsOf(ground(stocked(), '2026-11-08', { walks: [walk] })));
    expect(door).toMatchObject({ state: 'half', begun: { round: 'r', at: 2, of: 2 }, lots: ['carrot'] });
    expect(at('cellar', doorsOf(ground(stocked(), '2026-11-08', { walks: [end(walk, '')] })))?.state).toBe(
      'lit',
    );
  });
  test('the roster gives days and people', () => {
    const roster = { days: { cabbage: 3, carrot: 3 }, on: {}, who: { cellar: ['ana', 'wil'] } };
    const [door] = doorsOf(ground(stocked(), '2026-11-04', { roster }));
    expect(door).toMatchObject({ due: '2026-11-04', whose: ['ana', 'wil'] });
  });
});

describe('the order of a walk', () => {
  test('the longest overdue of its own interval is first', () => {
    const here = ground(stocked(), '2026-11-15');
    expect(lotsToWalk('cellar', here).map(({ id }) => id)).toEqual(['cabbage', 'carrot']);
  });
  test('something spreading left in a lot puts it first', () => {
    const cellar = stocked();
    cellar.write('inspection', '2026-11-14T10:00', {
      lot: 'carrot',
      space: 'cellar',
      way: 'sample',
      looked: 30,
      counted: false,
      seen: [{ finding: 'white_mould', pieces: 1 }],
    });
    const here = ground(cellar, '2026-11-15');
    expect(riskOf(cellar.lot('carrot', '2026-11-15'), here)).toBeGreaterThan(1);
    expect(byRisk(here.lots, here)[0]?.id).not.toBe('carrot');
    cellar.write('inspection', '2026-11-14T11:00', {
      lot: 'cabbage',
      space: 'cellar',
      way: 'all',
      looked: 20,
      counted: false,
    });
    const later = ground(cellar, '2026-11-15');
    expect(
      byRisk(
        later.lots.filter(({ space }) => space === 'cellar'),
        later,
      )[0]?.id,
    ).toBe('carrot');
  });
  test('what was looked at today is left out, unless that is all of it', () => {
    const cellar = stocked();
    cellar.write('inspection', '2026-11-15T08:00', {
      lot: 'cabbage',
      space: 'cellar',
      way: 'all',
      looked: 20,
      counted: false,
    });
    expect(lotsToWalk('cellar', ground(cellar, '2026-11-15')).map(({ id }) => id)).toEqual(['carrot']);
    cellar.write('inspection', '2026-11-15T08:05', {
      lot: 'carrot',
      space: 'cellar',
      way: 'sample',
      looked: 30,
      counted: false,
    });
    expect(lotsToWalk('cellar', ground(cellar, '2026-11-15'))).toHaveLength(2);
  });
  test('what is due within two days of the walk goes with it, what is due later does not', () => {
    const lots = (today: string) => lotsToWalk('cellar', ground(stocked(), today)).map(({ id }) => id);
    // Cabbages are due on the 8th, carrots on the 15th.
    expect(lots('2026-11-08')).toEqual(['cabbage']);
    expect(lots('2026-11-13')).toEqual(['cabbage', 'carrot']);
    expect(lots('2026-11-02')).toEqual(['cabbage']);
  });
  test('walked though nothing is due it goes to all of them', () => {
    const ids = (today: string) => lotsNow('cellar', ground(stocked(), today)).map(({ id }) => id);
    expect(ids('2026-11-03')).toEqual(['cabbage', 'carrot']);
    expect(ids('2026-11-08')).toEqual(['cabbage']);
  });
  test('only so many minutes takes from the front, at least one lot', () => {
    const here = ground(stocked(), '2026-11-15');
    const lots = lotsToWalk('cellar', here);
    expect(lotsWithin(lots, 1, here).map(({ id }) => id)).toEqual(['cabbage']);
    expect(lotsWithin(lots, 60, here)).toHaveLength(2);
  });
  test('minutes go by the weight that is looked at: a tenth of 30 kg at 6 min per 10 kg and the box', () => {
    const here = ground(stocked(), '2026-11-15');
    const carrots = here.lots.find(({ id }) => id === 'carrot');
    expect(carrots && minutesOf(carrots, here)).toBeCloseTo(1 + 1.8, 5);
  });
});

describe('the one sentence', () => {
  const today = '2026-11-10';
  const who = (whose: Record<string, readonly string[]>) =>
    ground(stocked(), today, { roster: { days: {}, on: {}, who: whose } });
  test('what is due and mine comes before what is nobody’s', () => {
    const doors = doorsOf(who({ loft: ['ana'] }));
    expect(leadOf('ana', doors, today)).toMatchObject({ say: 'yours', door: { space: 'loft' } });
    expect(leadOf('wil', doors, today)).toMatchObject({ say: 'nobodys', door: { space: 'cellar' } });
  });
  test('a round begun on this phone is gone on with', () => {
    const doors = doorsOf(ground(stocked(), today, { walks: [begun(['cabbage', 'carrot'])] }));
    expect(leadOf('ana', doors, today)).toMatchObject({ say: 'begun', door: { space: 'cellar' } });
  });
  test('all of them others’: it says whose', () => {
    const doors = doorsOf(who({ cellar: ['ruth'], loft: ['tom'] }));
    expect(leadOf('ana', doors, today)).toMatchObject({ say: 'theirs' });
  });
  test('nothing due names the next, nothing there says so', () => {
    expect(leadOf('ana', doorsOf(ground(stocked(), '2026-11-02')), '2026-11-02')).toMatchObject({
      say: 'nothing_due',
    });
    expect(leadOf('ana', [], today)).toEqual({ say: 'nothing_there' });
  });
  test('after a walk another due space is offered, not the same', () => {
    const doors = doorsOf(ground(stocked(), today));
    expect(nextDoor('ana', doors, today, 'cellar')?.space).toBe('loft');
    expect(doorFor('ana', doorsOf(ground(stocked(), '2026-11-02')), '2026-11-02')).toBeUndefined();
  });
  test('the part of the day goes by the hour', () => {
    expect([7, 12, 18].map(partOfDay)).toEqual(['morning', 'day', 'evening']);
  });
});
