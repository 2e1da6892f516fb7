import { describe, expect, test } from 'vitest';
import { lookPlan, toldOf } from './sample.ts';

// Ways, least number and share: fixtures/reference/looking_over.csv (common practice, no source).
const carrot = { way: 'sample', sample_pieces_min: 20, sample_share_pct: 10 } as const;
const cabbage = { way: 'all', sample_share_pct: 100 } as const;

describe('how many pieces to look at', () => {
  test('a sample is the larger of the number and the share', () => {
    expect(lookPlan(carrot, 300)).toEqual({ there: 300, looked: 30, whole: false });
    expect(lookPlan(carrot, 120)).toEqual({ there: 120, looked: 20, whole: false });
  });
  test('a sample of fewer pieces than its least number is all of them', () => {
    expect(lookPlan(carrot, 12)).toEqual({ there: 12, looked: 12, whole: true });
  });
  test('all means all, and half a head is one to look at', () => {
    expect(lookPlan(cabbage, 16.5)).toEqual({ there: 17, looked: 17, whole: true });
  });
  test('where only a weight is known a sample has its least number and all has none', () => {
    expect(lookPlan(carrot, undefined)).toEqual({ looked: 20, whole: false });
    expect(lookPlan(cabbage, undefined)).toEqual({ whole: true });
  });
  test('an own crop without a row is looked over whole', () => {
    expect(lookPlan(undefined, 8)).toEqual({ there: 8, looked: 8, whole: true });
  });
  test('a book at or below nought, while the lot stands, knows no number', () => {
    expect(lookPlan(cabbage, -2)).toEqual({ whole: true });
    expect(lookPlan(carrot, 0)).toEqual({ whole: false });
  });
});

describe('the number that may be said of a look', () => {
  const net = { whole: true, by_hand: false };
  test('nobody is said to have looked at each of a net of 394 with one touch', () => {
    expect(toldOf(394, net)).toBeUndefined();
  });
  test('a number that a hand set, a sample and a short row are said', () => {
    expect(toldOf(394, { whole: true, by_hand: true })).toBe(394);
    expect(toldOf(120, { whole: false, by_hand: false })).toBe(120);
    expect(toldOf(23, net)).toBe(23);
  });
  test('where no number is known none is said', () => expect(toldOf(undefined, net)).toBeUndefined());
});
