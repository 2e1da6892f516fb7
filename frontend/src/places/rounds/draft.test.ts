import { describe, expect, test } from 'vitest';
import {
  begin,
  decided,
  end,
  goIn,
  isOpen,
  minutesSpent,
  pass,
  place,
  resume,
  setApart,
  setHand,
  setLots,
  settle,
  toCome,
  undo,
  type Walk,
} from './draft.ts';
import { setFindings, takeUp, turnTo } from './lotstep.ts';

const plan = () => ({ there: 17, looked: 17, whole: true });
const at = (minute: number) => new Date(Date.UTC(2026, 0, 20, 17, minute)).toISOString();
const fresh = begin({
  round: 'r',
  space: 's',
  now: at(0),
  writer: 'ana',
  with: ['wil'],
  lots: ['a', 'b', 'c'],
});
const inside = goIn(fresh, 'reading', plan, at(1));
const first = takeUp('a', plan());
const sound = (entry: string) => ({ told: { what: 'sound', looked: 17 }, entries: [entry] }) as const;

describe('a round as a draft', () => {
  test('begins at the air, then takes up the first lot', () => {
    expect(fresh.page).toBe('air');
    expect(inside).toMatchObject({ page: 'lot', hand: { lot: 'a', looked: 17 }, beside: ['reading'] });
    expect(place(inside)).toEqual({ at: 1, of: 3 });
  });
  test('no dial today goes in without a reading', () => {
    expect(goIn(fresh, undefined, plan, at(1)).beside).toEqual([]);
  });
  test('at the door the minutes one has choose the lots, and all of them come back', () => {
    const short = setLots(fresh, ['a'], 10);
    expect(short).toMatchObject({ lots: ['a'], minutes: 10 });
    expect(setLots(short, ['a', 'b', 'c'])).toEqual(fresh);
    expect(setLots(inside, ['a'], 10)).toBe(inside);
  });
  test('each lot passed is remembered with its entries and the next is taken up', () => {
    const second = pass(inside, sound('i1'), plan, at(3));
    expect(second).toMatchObject({
      hand: { lot: 'b' },
      kept: { entries: ['i1'] },
      passed: [{ lot: 'a', entries: ['i1'] }],
    });
    expect(toCome(second)).toEqual(['b', 'c']);
  });
  test('after the last lot comes the end', () => {
    const ended = ['i1', 'i2', 'i3'].reduce<Walk>(
      (walk, entry, i) => pass(walk, sound(entry), plan, at(2 + i)),
      inside,
    );
    expect(ended).toMatchObject({ page: 'end', ended_at: at(4) });
    expect(ended.hand).toBeUndefined();
    expect(isOpen(ended)).toBe(false);
  });
  test('undo gives the lot back as it was in the hand', () => {
    const held = setHand(
      inside,
      setFindings(turnTo(first, 'out'), ['soft_rot'], () => ({ way: 'out', to: 'bin' })),
    );
    const back = undo(pass(held, sound('i1'), plan, at(3)), at(4));
    expect(back.hand).toEqual(held.hand);
    expect(back.passed).toEqual([]);
    expect(back.kept).toBeUndefined();
  });
  test('undo from the end opens the round again', () => {
    const one = goIn(
      begin({ round: 'r', space: 's', now: at(0), writer: 'a', with: [], lots: ['a'] }),
      undefined,
      plan,
      at(1),
    );
    const ended = pass(one, sound('i1'), plan, at(2));
    expect(ended.page).toBe('end');
    expect(undo(ended, at(3))).toMatchObject({ page: 'lot', hand: { lot: 'a' } });
    expect(undo(ended, at(3)).ended_at).toBeUndefined();
  });
  test('a suspect leaves the lot in the hand and undo takes it from the summary too', () => {
    const unsure = setHand(inside, { ...first, page: 'unsure', unsure: { findings: ['white_mould'] } });
    const kept = setApart(unsure, 'sus', 'set_apart', at(2));
    expect(kept).toMatchObject({ page: 'lot', hand: { lot: 'a', page: 'look' }, beside: ['reading', 'sus'] });
    expect(kept.hand?.unsure).toBeUndefined();
    const back = undo(kept, at(3));
    expect(back.beside).toEqual(['reading']);
    expect(back.hand).toMatchObject({ page: 'unsure', unsure: { findings: ['white_mould'] } });
  });
  test('a decision on the walk can be undone by itself; the suspect stays', () => {
    const walk = decided(setApart(inside, 'sus', 'set_apart', at(2)), 'dec', 'compost');
    expect(walk).toMatchObject({ beside: ['reading', 'sus', 'dec'], kept: { entries: ['dec'] } });
    expect(undo(walk, at(3))).toMatchObject({ beside: ['reading', 'sus'], hand: { lot: 'a', page: 'look' } });
  });
  test('the next act settles the one before', () => {
    expect(settle(pass(inside, sound('i1'), plan, at(3))).kept).toBeUndefined();
    expect(settle(inside)).toBe(inside);
  });
  test('ended early leaves the rest to come', () => {
    const ended = end(pass(inside, sound('i1'), plan, at(3)), at(4));
    expect(ended).toMatchObject({ page: 'end', ended_at: at(4) });
    expect(toCome(ended)).toEqual(['b', 'c']);
  });
  test('a pause of an hour is not walked time', () => {
    const second = pass(inside, sound('i1'), plan, at(3));
    const later = pass(
      resume(second, () => true, plan, at(63)),
      sound('i2'),
      plan,
      at(65),
    );
    expect(minutesSpent(later)).toBe(5);
  });
  test('gone on with later, lots seen by others fall out and the next is taken up', () => {
    const second = pass(inside, sound('i1'), plan, at(3));
    const gone = resume(second, (lot) => lot !== 'b', plan, at(50));
    expect(gone).toMatchObject({ lots: ['a', 'c'], hand: { lot: 'c' } });
    expect(resume(second, () => false, plan, at(50))).toMatchObject({ page: 'end', lots: ['a'] });
  });
  test('gone on with, the lot in the hand is as it was set', () => {
    const held = setHand(inside, turnTo(first, 'out'));
    expect(resume(held, () => true, plan, at(50)).hand).toEqual(held.hand);
  });
  test('survives being written and read again', () => {
    const walk = decided(setApart(inside, 'sus', 'held', at(2)), 'decision', 'trim');
    expect(JSON.parse(JSON.stringify(walk))).toEqual(walk);
  });
});
