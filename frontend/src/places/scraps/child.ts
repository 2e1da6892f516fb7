/** What a small child is asked to do, by age and by what the household has marked. Pure. */

export type Step = 'choose' | 'carry' | 'eggs' | 'chore' | 'odd' | 'odd_kept' | 'wash' | 'leave';

/** How near a child comes to the birds: `run`; `fence`: carries to it, touches none; `none`: not at all. */
export type Near = 'run' | 'fence' | 'none';

/**
 * Under five by the year of birth: who turns five this year counts as under five until it ends, and so does a child nobody
 * said the year of. Rule of five: kitchen_safety `small_children`.
 */
export const under_five = (born: number | undefined, year: number): boolean =>
  born === undefined || year - born <= 5;

export function near(born: number | undefined, year: number, bird: boolean, outbreak: boolean): Near {
  if (bird && outbreak) return 'none';
  return bird && under_five(born, year) ? 'fence' : 'run';
}

export interface Basket {
  /** All laid, broken ones too. */
  readonly eggs: number;
  readonly broken: number;
}

export const one_more = ({ eggs, broken }: Basket): Basket => ({ eggs: eggs + 1, broken });
export const one_broken = ({ eggs, broken }: Basket): Basket => ({ eggs: eggs + 1, broken: broken + 1 });
/** Broken ones go last: whole eggs are taken back out first. */
export function one_back({ eggs, broken }: Basket): Basket {
  if (eggs === 0) return { eggs, broken };
  return eggs > broken ? { eggs: eggs - 1, broken } : { eggs: eggs - 1, broken: broken - 1 };
}

/** A sum no small child does in the head, another each time: the way out for the adult. */
export function adult_sum(random: () => number = Math.random): { readonly a: number; readonly b: number } {
  const figure = () => 6 + Math.floor(random() * 4);
  return { a: figure(), b: figure() };
}
