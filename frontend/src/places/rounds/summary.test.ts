import { describe, expect, test } from 'vitest';
import { begin, type Walk } from './draft.ts';
import { Cellar } from './made_up.ts';
import { summaryOf } from './summary.ts';

const today = '2026-11-20';
const at = (minute: number) => `2026-11-20T17:${String(minute).padStart(2, '0')}`;

function walked(): { cellar: Cellar; walk: Walk } {
  const cellar = new Cellar();
  cellar.write(
    'put_away',
    '2026-11-01T10:00',
    { crop: 'carrot', space: 's', grams: 30_000 },
    { id: 'carrot' },
  );
  cellar.write(
    'put_away',
    '2026-11-01T11:00',
    { crop: 'cabbage', space: 's', pieces: 20 },
    { id: 'cabbage' },
  );
  cellar.write('put_away', '2026-11-01T12:00', { crop: 'beet', space: 's', grams: 2000 }, { id: 'beet' });
  cellar.write('reading', at(1), { space: 's', round: 'r', temp_c: 2.5, low_c: 0.5 }, { id: 'air' });
  cellar.write(
    'inspection',
    at(3),
    {
      lot: 'carrot',
      round: 'r',
      space: 's',
      way: 'sample',
      looked: 30,
      counted: false,
      seen: [
        { finding: 'black_mould', pieces: 2 },
        { finding: 'white_mould', pieces: 1 },
        { finding: 'shrivelled', pieces: 4 },
      ],
      out: [
        { pieces: 2, findings: ['black_mould'], went: [{ step: 'cook' }] },
        { pieces: 1, findings: ['white_mould'], went: [{ step: 'compost' }] },
      ],
    },
    { id: 'i1', photos: ['p1'] },
  );
  cellar.write('claim', at(3), { chore: 'pick_over/i1/2026-11-21' }, { id: 'claim' });
  cellar.write(
    'suspect',
    at(4),
    { lot: 'cabbage', round: 'r', findings: ['mould'], lies: 'set_apart', pieces: 1 },
    { id: 'sus', photos: ['p2'] },
  );
  cellar.write(
    'inspection',
    at(5),
    {
      lot: 'cabbage',
      round: 'r',
      space: 's',
      way: 'all',
      looked: 20,
      counted: false,
      seen: [{ finding: 'yellowing', pieces: 2 }],
      trims: [
        {
          pieces: 2,
          findings: ['yellowing'],
          cut: { step: 'animals', animals: 'hens', grams: 700, cut_in: 'store' },
        },
      ],
    },
    { id: 'i2' },
  );
  cellar.write('count', at(7), { lot: 'beet', pieces: 0, gone: 'eaten' }, { id: 'gone' });
  const walk: Walk = {
    ...begin({
      round: 'r',
      space: 's',
      now: `${at(0)}:00.000Z`,
      writer: 'ana',
      with: ['wil'],
      lots: ['carrot', 'cabbage', 'beet'],
    }),
    page: 'end',
    spent_ms: 15 * 60_000,
    beside: ['air', 'sus'],
    passed: [
      { lot: 'carrot', told: { what: 'seen', out: 3, trimmed: 0, left: 4 }, entries: ['i1', 'claim'] },
      { lot: 'cabbage', told: { what: 'seen', out: 0, trimmed: 2, left: 0 }, entries: ['i2'] },
      { lot: 'beet', told: { what: 'gone' }, entries: ['gone'] },
    ],
  };
  return { cellar, walk };
}
function summed({ cellar, walk }: { cellar: Cellar; walk: Walk }) {
  const whole = cellar.whole(today);
  return summaryOf({ walk, lines: cellar.held, whole, lot: (id) => whole.lots[id] });
}

describe('what a walk did', () => {
  test('counts lots, minutes, pieces looked at and out', () => {
    expect(summed(walked())).toMatchObject({
      walked: 3,
      minutes: 15,
      looked: 50,
      out: 3,
      entries: 6,
      photos: 2,
    });
  });
  test('tells the air, outs, the suspect, trims, what was left, what was freed and what is to be done', () => {
    const deeds = summed(walked()).deeds;
    expect(deeds.map(({ deed }) => deed)).toEqual([
      'air',
      'out',
      'set_apart',
      'trim',
      'left',
      'freed',
      'pick_over',
    ]);
    expect(deeds[1]).toMatchObject({
      lot: 'carrot',
      pieces: 3,
      findings: [
        { finding: 'black_mould', pieces: 2 },
        { finding: 'white_mould', pieces: 1 },
      ],
    });
    expect(deeds[2]).toMatchObject({ lot: 'cabbage', photographed: true });
    expect(deeds[4]).toMatchObject({ lot: 'carrot', findings: [{ finding: 'shrivelled', pieces: 4 }] });
    expect(deeds[5]).toMatchObject({ lot: 'beet' });
    expect(deeds[6]).toMatchObject({ lot: 'carrot', day: '2026-11-21', who: 'ana' });
  });
  test('says where it went, best step first, in grams as the fold has them', () => {
    expect(summed(walked()).went).toEqual([
      { step: 'cook', grams: 200, of: [{ crop: 'carrot', pieces: 2 }] },
      { step: 'animals', animals: 'hens', grams: 700, of: [{ crop: 'cabbage' }] },
      { step: 'compost', grams: 100, of: [{ crop: 'carrot', pieces: 1 }] },
    ]);
  });
  test('"not looked at" is told with its reason and is not walked', () => {
    const { cellar, walk } = walked();
    cellar.write(
      'inspection',
      at(9),
      { lot: 'cabbage', round: 'r', space: 's', way: 'none', why_not: 'out_of_reach', counted: false },
      { id: 'n' },
    );
    const short: Walk = {
      ...walk,
      beside: [],
      passed: [{ lot: 'cabbage', told: { what: 'not_looked', why: 'out_of_reach' }, entries: ['n'] }],
    };
    expect(summed({ cellar, walk: short })).toMatchObject({
      walked: 0,
      looked: 0,
      out: 0,
      deeds: [{ deed: 'not_looked', lot: 'cabbage', why: 'out_of_reach' }],
    });
  });
  test('a decision made on the walk is told', () => {
    const { cellar, walk } = walked();
    cellar.write('decision', at(10), { suspect: 'sus', do: 'compost' }, { id: 'dec' });
    const deeds = summed({ cellar, walk: { ...walk, beside: [...walk.beside, 'dec'] } }).deeds;
    expect(deeds).toContainEqual({
      deed: 'decided',
      lot: 'cabbage',
      decision: { suspect: 'sus', do: 'compost' },
    });
  });
});
