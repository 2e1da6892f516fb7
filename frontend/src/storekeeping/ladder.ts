/**
 * The use ladder: what is left to do with a piece, in order, each use with its caution and where it is from.
 * Twin: `homestead/storekeeping/ladder.py`. Both run `fixtures/vectors/ladder*.json`. Rules told in docs/ladder.md.
 */

import type { Group, Law, Question, Rules, Rung, Standing, Uses } from './rules.ts';

/** All uses left for what is asked about, and those withheld with the reason; the strictest rule holds. */
export declare function uses_of(rules: Rules, question: Question, groups?: readonly Group[], law?: Law | null): Uses;

/** Parts the table tells apart for this crop in this state, the stored part first. */
export declare function parts_of(rules: Rules, crop: string, findings: readonly string[]): readonly string[];

/** Where a lot stands on the ladder (fold F18): best step of the stored part, lowered by standing findings. */
export declare function rung_of(rules: Rules, crop: string, standing: readonly Standing[]): Rung;
