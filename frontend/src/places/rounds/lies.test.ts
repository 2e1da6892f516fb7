import { beforeAll, describe, expect, test } from 'vitest';
import { reference } from '../../reference/index.ts';
import { lieAdvice, liesNow, type AboutFinding } from './lies.ts';
import { doubtsFor, isSealed, SHOWN, ticksFor } from './ticks.ts';
import type { LookFor } from '../../reference/index.ts';

// Kinds and what spreads: fixtures/reference/findings.csv, as the phone holds it.
let about: AboutFinding;
let look_fors: (crop: string) => readonly LookFor[];
beforeAll(async () => {
  const tables = await reference('en');
  about = { kind: (finding) => tables.rules.findings[finding]?.kind, spreads: tables.finding_spreads };
  look_fors = tables.look_fors;
});

describe('where a suspect waits', () => {
  test('wet, furry or smelling it is set apart, and nobody chooses otherwise', () => {
    for (const finding of ['soft_rot', 'grey_mould', 'white_mould', 'black_mould', 'off_smell', 'frosted']) {
      expect(lieAdvice([finding], about), finding).toMatchObject({ lies: 'set_apart', free: false });
    }
    expect(liesNow('held', lieAdvice(['shrivelled', 'mould'], about))).toBe('set_apart');
    expect(lieAdvice(['shrivelled', 'mould'], about).because).toBe('mould');
  });
  test('dry and firm it is held where it lies, or set apart all the same', () => {
    const advice = lieAdvice(['dry_rot', 'bruise'], about);
    expect(advice).toEqual({ lies: 'held', free: true });
    expect(liesNow(undefined, advice)).toBe('held');
    expect(liesNow('set_apart', advice)).toBe('set_apart');
  });
  test('while nobody can say, apart is the careful way and the choice is free', () => {
    expect(lieAdvice(['unsure'], about)).toEqual({ lies: 'set_apart', free: true });
    expect(lieAdvice([], about)).toEqual({ lies: 'set_apart', free: true });
  });
});

describe('ticks', () => {
  test('begin with what presses on this crop and end with "can’t say"', () => {
    const ticks = ticksFor('carrot', look_fors('carrot'));
    expect(ticks[0]).toBe('white_mould');
    expect(ticks.at(-1)).toBe('unsure');
    expect(ticks.length).toBeLessThanOrEqual(SHOWN + 1);
  });
  test('what is ticked already stays among them', () => {
    expect(ticksFor('carrot', look_fors('carrot'), ['bitter'])).toContain('bitter');
  });
  test('a jar has look-fors of its own and is asked about no smell', () => {
    expect(ticksFor('jar', look_fors('jar'))).toContain('lid_up');
    expect(doubtsFor('jar', look_fors('jar'))).not.toContain('off_smell');
    expect(doubtsFor('carrot', look_fors('carrot'))).toContain('off_smell');
    expect(ticksFor('frozen', look_fors('frozen'))).not.toContain('off_smell');
    expect(isSealed('jar')).toBe(true);
    expect(isSealed('carrot')).toBe(false);
  });
});
