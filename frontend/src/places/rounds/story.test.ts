import { describe, expect, test } from 'vitest';
import { Cellar } from './made_up.ts';
import { lastPhoto, looksOf, miceNear, photoBefore, photosOf, seenIn, storyOf } from './story.ts';

const today = '2026-11-20';
function cabbages(): Cellar {
  const cellar = new Cellar();
  cellar.write(
    'put_away',
    '2026-11-01T10:00',
    { crop: 'cabbage', space: 's', pieces: 23 },
    { id: 'lot', photos: ['first'] },
  );
  cellar.write('take', '2026-11-05T10:00', { lot: 'lot', pieces: 5, for: 'eat' });
  cellar.write('cull', '2026-11-08T10:00', {
    lot: 'lot',
    pieces: 1,
    findings: ['soft_rot'],
    went: [{ step: 'compost' }],
  });
  cellar.write(
    'inspection',
    '2026-11-10T10:00',
    { lot: 'lot', space: 's', way: 'all', looked: 17, counted: false },
    { id: 'look', photos: ['look'] },
  );
  cellar.write(
    'suspect',
    '2026-11-18T17:00',
    { lot: 'lot', findings: ['mould'], lies: 'set_apart' },
    { id: 'sus', photos: ['sus'] },
  );
  return cellar;
}

describe('what a lot has been through', () => {
  test('is told in pieces: put away, eaten, out by what was seen', () => {
    const cellar = cabbages();
    const story = storyOf(cellar.lot('lot', today), cellar.whole(today).went, cellar.held);
    expect(story).toMatchObject({
      put_away_day: '2026-11-01',
      put_away: { pieces: 23 },
      eaten: { pieces: 5 },
      given: {},
      lost: [{ finding: 'soft_rot', pieces: 1 }],
    });
  });
  test('what was culled to the pot is out, not eaten', () => {
    const cellar = cabbages();
    cellar.write('cull', '2026-11-09T10:00', {
      lot: 'lot',
      pieces: 2,
      findings: ['shrivelled'],
      went: [{ step: 'cook' }],
    });
    const story = storyOf(cellar.lot('lot', today), cellar.whole(today).went, cellar.held);
    expect(story.eaten).toMatchObject({ pieces: 5 });
    expect(story.lost).toContainEqual(expect.objectContaining({ finding: 'shrivelled', pieces: 2 }));
  });
});

describe('its photos', () => {
  test('run from first to last; those of suspects are not of the lot itself', () => {
    const lot = cabbages().lot('lot', today);
    expect(photosOf(lot).map(({ hash }) => hash)).toEqual(['first', 'look', 'sus']);
    expect(looksOf(lot).map(({ hash }) => hash)).toEqual(['first', 'look']);
    expect(lastPhoto(lot)?.hash).toBe('look');
  });
  test('beside a suspect stands the last look before it', () => {
    const lot = cabbages().lot('lot', today);
    expect(photoBefore(lot, Date.parse('2026-11-18T17:00Z'))?.hash).toBe('look');
    expect(photoBefore(lot, Date.parse('2026-11-09T17:00Z'))?.hash).toBe('first');
  });
  test('a struck look shows no photo (F3)', () => {
    const cellar = cabbages();
    cellar.write('strike', '2026-11-19T10:00', {}, { strikes: 'look' });
    expect(lastPhoto(cellar.lot('lot', today))?.hash).toBe('first');
  });
});

describe('what somebody saw', () => {
  test('an inspection tells what was out, else that it was sound', () => {
    const cellar = cabbages();
    expect(seenIn(cellar.lines.get('look'))).toEqual({ saw: 'sound', looked: 17, whole: true });
    const out = cellar.write('inspection', '2026-11-19T10:00', {
      lot: 'lot',
      space: 's',
      way: 'all',
      looked: 17,
      counted: false,
      out: [{ pieces: 2, findings: ['mould'], went: [{ step: 'compost' }] }],
    });
    expect(seenIn(cellar.lines.get(out))).toEqual({ saw: 'out', out: 2, looked: 17 });
  });
  test('a birth and a count are looks too (F17)', () => {
    const cellar = cabbages();
    expect(seenIn(cellar.lines.get('lot'))).toEqual({ saw: 'put_away' });
    expect(
      seenIn(cellar.lines.get(cellar.write('count', '2026-11-19T10:00', { lot: 'lot', pieces: 16 }))),
    ).toEqual({ saw: 'counted' });
  });
});

test('a mouse in one lot is told at its neighbours for a while', () => {
  const cellar = cabbages();
  cellar.write('put_away', '2026-11-01T12:00', { crop: 'carrot', space: 's', grams: 3000 }, { id: 'near' });
  cellar.write('put_away', '2026-11-01T13:00', { crop: 'carrot', space: 'loft', grams: 3000 }, { id: 'far' });
  cellar.write('inspection', '2026-11-19T10:00', {
    lot: 'near',
    space: 's',
    way: 'all',
    looked: 30,
    counted: false,
    seen: [{ finding: 'gnawed' }],
  });
  const lots = Object.values(cellar.whole(today).lots);
  expect(miceNear(cellar.lot('lot', today), lots, cellar.held, today)?.id).toBe('near');
  expect(miceNear(cellar.lot('near', today), lots, cellar.held, today)).toBeUndefined();
  expect(miceNear(cellar.lot('far', today), lots, cellar.held, today)).toBeUndefined();
  expect(miceNear(cellar.lot('lot', '2026-12-20'), lots, cellar.held, '2026-12-20')).toBeUndefined();
});
test('what mice gnawed warns its neighbours also when it went out of the lot', () => {
  const cellar = new Cellar();
  for (const id of ['onion', 'garlic'])
    cellar.write('put_away', '2026-11-01T10:00', { crop: 'cabbage', space: 'loft', pieces: 40 }, { id });
  cellar.write('inspection', '2026-11-15T10:00', {
    ...{ lot: 'onion', space: 'loft', way: 'all', looked: 40, counted: false },
    seen: [{ finding: 'gnawed', pieces: 1 }],
    out: [{ pieces: 1, findings: ['gnawed'], went: [{ step: 'compost' }] }],
  });
  const lots = Object.values(cellar.whole(today).lots);
  expect(cellar.lot('onion', today).standing).toEqual([]);
  expect(miceNear(cellar.lot('garlic', today), lots, cellar.held, today)?.id).toBe('onion');
  expect(miceNear(cellar.lot('garlic', today), lots, cellar.held, '2026-12-20')).toBeUndefined();
});
