/**
 * What may go to which animal: the feed rules, the law and fold F20 in one answer. Twin:
 * `homestead/storekeeping/feeding.py`. The server's check at push and the phone's forms ask the same functions, so
 * that what one offers the other never refuses.
 */

import type { FeedAnswer, Group, Law, Question, Refusal, Rules, Went } from './rules.ts';

/** May this group have it? */
export declare function may_feed(rules: Rules, question: Question, group: Group, law?: Law | null): FeedAnswer;

/** What a `went` came from: the crop (null: mixed scraps), what was found, whether the piece left its lot uncut. */
export interface Leaving {
  readonly crop: string | null;
  readonly findings: readonly string[];
  readonly whole: boolean;
}

/** Why this `went` must not be written, or null. `groups` by id. An accident is never refused here. */
export declare function check_went(
  rules: Rules,
  went: Went,
  leaving: Leaving,
  groups: Readonly<Record<string, Group>>,
  law?: Law | null,
): Refusal | null;
