/**
 * What the country's law, as far as the tables know it, and the household's own word say of kitchen scraps.
 * Twin: `homestead/storekeeping/law.py`. Not legal advice: screens say to check the local rule and name the row.
 */

import type { FeedCode, Group, Law, LawRule, Question, Row, Rules } from './rules.ts';

/** Kinds of crop that have been through a kitchen, wherever the pail stood. */
const FROM_A_KITCHEN = new Set(['animal', 'preserve', 'kitchen']);
const COOKED = new Set(['cooked', 'spent', 'salted']);
/** Kept in under a housing order. */
const BIRDS = new Set(['laying_hen', 'duck', 'goose']);

/** Cut in a kitchen, cooked, or nobody says where: not known counts as kitchen. */
export function from_a_kitchen(question: Question, kind: string, conditions: readonly string[]): boolean {
  const where = question.cut_in ?? 'kitchen';
  return (
    where === 'kitchen' || FROM_A_KITCHEN.has(kind) || conditions.some((condition) => COOKED.has(condition))
  );
}

/** A rule of the country, of the part of it that is named, or, where none is named, of any part. */
function holds_in(rule: LawRule, country: string): boolean {
  return rule.countries.some(
    (code) => code === country || country.startsWith(`${code}-`) || code.startsWith(`${country}-`),
  );
}

/** A housing order stops what goes outside: to birds that are not marked as housed. */
export const kept_in = (law: Law | null, group: Group): boolean =>
  law?.housing_order === true && BIRDS.has(group.kind) && group.housed !== true;

/** What the household marks as bird: the order and an outbreak speak of them. */
export const is_bird = (kind: string): boolean => BIRDS.has(kind);

export interface LawRefuses {
  readonly code: FeedCode;
  readonly rows: readonly Row[];
}

/**
 * Why kitchen scraps may not go to this kind of animal, with the rows that say so; null where they may.
 * `animal_matter`: eggs, meat and what has touched them.
 */
export function law_refuses(
  rules: Rules,
  law: Law | null,
  animal: string,
  animal_matter: boolean,
): LawRefuses | null {
  const rows_of = (held: readonly LawRule[]): readonly Row[] => held.map((rule) => rule.row);
  const country = law?.country;
  if (!country) {
    return {
      code: 'country_not_set',
      rows: rows_of(rules.law.filter((rule) => rule.countries.includes('*'))),
    };
  }
  const held = rules.law.filter(
    (rule) => rule.animals.includes(animal) && holds_in(rule, country) && rule.kitchen !== 'none',
  );
  const barred = held.filter((rule) => rule.kitchen === 'prohibited');
  if (barred.length > 0) return { code: 'law_prohibited', rows: rows_of(barred) };
  const known = held.length > 0;
  if (!law.confirmed) return { code: known ? 'law_not_confirmed' : 'law_not_known', rows: rows_of(held) };
  const plants_only = held.filter((rule) => rule.kitchen === 'no_animal_matter');
  if (animal_matter && plants_only.length > 0) return { code: 'animal_matter', rows: rows_of(plants_only) };
  if (!(law.kitchen_to ?? []).includes(animal)) {
    return { code: known ? 'law_not_allowed' : 'law_not_known', rows: rows_of(held) };
  }
  return null;
}
