import { describe, expect, test } from 'vitest';
import { lookPlan } from './sample.ts';
import {
  askPickOver,
  changeGoing,
  goesNowhere,
  pickOverLater,
  pickOverNow,
  piecesGoing,
  setFindings,
  setLooked,
  setWhole,
  takeUp,
} from './lotstep.ts';

const sample = lookPlan({ way: 'sample', sample_pieces_min: 20, sample_share_pct: 10 }, 300);
const box = takeUp('lot', sample);
const toCompost = () => ({ way: 'out', to: 'compost' }) as const;

describe('one lot in the hand', () => {
  test('begins with the sample, untouched', () => {
    expect(box).toMatchObject({ page: 'look', looked: 30, touched: false, whole: false, goings: [] });
  });
  test('a number set by hand is touched', () => {
    expect(setLooked(box, 28)).toMatchObject({ looked: 28, touched: true });
  });
  test('a ticked finding goes with one piece, another keeps what was set on the first', () => {
    const one = changeGoing(setFindings(box, ['black_mould'], toCompost), 'black_mould', {
      pieces: 2,
      to: 'cook',
    });
    const two = setFindings(one, ['black_mould', 'white_mould'], toCompost);
    expect(two.goings).toEqual([
      { finding: 'black_mould', way: 'out', pieces: 2, to: 'cook' },
      { finding: 'white_mould', way: 'out', pieces: 1, to: 'compost' },
    ]);
    expect(piecesGoing(two, 'out')).toBe(3);
  });
  test('an unticked finding goes nowhere any more', () => {
    const two = setFindings(box, ['black_mould', 'white_mould'], toCompost);
    expect(setFindings(two, ['white_mould'], toCompost).goings.map(({ finding }) => finding)).toEqual([
      'white_mould',
    ]);
  });
  test('out over looked puts the number looked at up and tells it', () => {
    const many = changeGoing(setFindings(setLooked(box, 3), ['soft_rot'], toCompost), 'soft_rot', {
      pieces: 5,
    });
    expect(many).toMatchObject({ looked: 5, raised: true });
    expect(setLooked(many, 8)).toMatchObject({ looked: 8, raised: false });
    expect(setLooked(many, 2)).toMatchObject({ looked: 5, raised: true });
  });
  test('a field set to nothing is taken away', () => {
    const ticked = setFindings(box, ['soft_rot'], toCompost);
    expect(changeGoing(ticked, 'soft_rot', { to: undefined }).goings[0]).toEqual({
      finding: 'soft_rot',
      way: 'out',
      pieces: 1,
    });
    expect(goesNowhere(changeGoing(ticked, 'soft_rot', { to: undefined }))?.finding).toBe('soft_rot');
    expect(goesNowhere(ticked)).toBeUndefined();
  });
  test('what is left in the lot needs nowhere to go', () => {
    const ticked = setFindings(box, ['shrivelled'], () => ({ way: 'left' }));
    expect(goesNowhere(ticked)).toBeUndefined();
  });
  test('picking over now looks at every piece, later goes back to the sample', () => {
    const now = pickOverNow(box, sample);
    expect(now).toMatchObject({ looked: 300, whole: true, pick_over: 'now' });
    expect(pickOverLater(now, sample, 'chore')).toMatchObject({
      looked: 30,
      whole: false,
      pick_over: 'chore',
    });
    expect(pickOverLater(setLooked(box, 34), sample, 'no')).toMatchObject({ looked: 34, pick_over: 'no' });
  });
  test('a hand says whether the looked ones are all there is', () => {
    expect(setWhole(setLooked(box, 12), true)).toMatchObject({ looked: 12, whole: true });
  });
  test('a sample that shows something spreading asks to be picked over, and no longer once it is unticked', () => {
    const wool = askPickOver(
      setFindings(box, ['white_mould'], toCompost),
      (finding) => finding === 'white_mould',
      true,
    );
    expect(wool.pick_over).toBe('chore');
    expect(askPickOver(setFindings(wool, [], toCompost), () => true, true)).not.toHaveProperty('pick_over');
    expect(askPickOver({ ...wool, pick_over: 'no' }, () => true, true).pick_over).toBe('no');
    expect(askPickOver(setFindings(box, ['white_mould'], toCompost), () => true, false).pick_over).toBe('no');
  });
  test('a lot looked over whole asks nothing', () => {
    const all = takeUp('lot', { there: 17, looked: 17, whole: true });
    expect(askPickOver(setFindings(all, ['mould'], toCompost), () => true, true)).not.toHaveProperty(
      'pick_over',
    );
  });
});
