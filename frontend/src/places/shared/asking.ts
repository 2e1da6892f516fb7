/**
 * The ladder as every screen asks it: with the animals kept, the law, who is at table and who is writing. Reactive: it reads
 * `house` and the words. No screen asks another way, so that none says a thing more mildly than another.
 */
import { parts_of } from '../../storekeeping/ladder';
import type { Question } from '../../storekeeping/rules';
import type { LotState } from '../../storekeeping/state';
import { figures } from '../../words';
import { rounds_words } from '../../words/rounds';
import { feedable_groups, household_eaters, household_law } from './feeding';
import { house } from './house.svelte';
import { table_crop } from './names';
import { all_for_seed, offer, type May, type Offer } from './offer';

/** What whoever is writing may choose. */
export function mayNow(): May {
  const { writer } = house;
  const older = writer?.role === 'rounds';
  return { food: house.is_grown || older, feed: house.is_grown || (older && writer.may_decide) };
}

/** "black mould and white woolly mould", as within a sentence. */
export const finding_words = (finding: string): string =>
  finding === 'unsure'
    ? rounds_words().out.cant_say
    : rounds_words().small(house.reference.finding_name(finding));
/** All of them; "can't say" says nothing beside one that was named. */
export function findings_list(findings: readonly string[]): string {
  const named = findings.filter((finding) => finding !== 'unsure');
  return figures().list((named.length > 0 ? named : findings).map(finding_words));
}

/** What is asked, as this household asks it: who is at table makes cautions stricter. */
export const asked_here = (question: Omit<Question, 'eaters'>): Question => ({
  ...question,
  eaters: household_eaters(),
});

/** The ladder for what somebody has in hand; `crop` is one of the tables. */
export const offer_here = (question: Omit<Question, 'eaters'>, for_seed = false): Offer =>
  offer(
    {
      question: asked_here(question),
      groups: feedable_groups(),
      law: household_law(),
      may: mayNow(),
      for_seed,
    },
    house.reference,
    { ...rounds_words().offer, names: findings_list, list: (words) => figures().list(words) },
  );

/**
 * A piece of a lot, as the tables are asked about it: its crop, its age; dressed seed is never food or feed. Where part of
 * a lot is dressed seed, every piece counts as one unless somebody said that this one is of the rest.
 */
export const question_of_lot = (
  lot: Pick<LotState, 'crop' | 'put_away_day' | 'seed'>,
  { findings, ...more }: Pick<Question, 'findings' | 'part' | 'cut_in'>,
  of_seed?: boolean,
): Omit<Question, 'eaters'> => ({
  ...more,
  findings: lot.seed.treated && of_seed !== false ? [...findings, 'treated'] : findings,
  crop: table_crop(lot.crop),
  age_days: figures().days_between(lot.put_away_day, house.today),
});

/** What is kept for seed is offered to nobody, dressed or not. `of_seed`: what somebody said of a lot that is seed in part. */
export const offer_of_lot = (
  lot: Pick<LotState, 'crop' | 'put_away_day' | 'seed' | 'shown'>,
  question: Pick<Question, 'findings' | 'part' | 'cut_in'>,
  of_seed?: boolean,
): Offer => offer_here(question_of_lot(lot, question, of_seed), of_seed ?? all_for_seed(lot));

/** What is cut off is the first part the ladder knows beside the one that is stored. */
export function part_cut(lot: Pick<LotState, 'crop'>, finding: string): string | undefined {
  const [, ...others] = parts_of(house.reference.rules, table_crop(lot.crop), [finding]);
  return others.find((part) => part !== 'sound part');
}
