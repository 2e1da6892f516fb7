/**
 * The words of the screens. `words()` are those of the shell and of what all places share; a place has its own list beside
 * these (`words/<place>.en.ts`, `words/<place>.de.ts`, joined by `spoken` in `words/<place>.ts`), loaded with the place.
 * `figures()` writes numbers, units and days. All of them are reactive: read them in templates or in `$derived`.
 */
import { de } from './de';
import { en } from './en';
import { Figures } from './figures';
import { spoken, tongue, type Manner } from './tongue.svelte';

export { Figures, type When } from './figures';
export { many } from './many';
export { chosen_elsewhere, languages, spoken, tongue, type Language, type Manner } from './tongue.svelte';

export const words = spoken({ en, de });

let last: { locale: string; manner: Manner; figures: Figures } | undefined;

/** Figures in the present language and units. */
export function figures(): Figures {
  const { locale, manner } = tongue;
  if (last?.locale !== locale || last.manner !== manner)
    last = { locale, manner, figures: new Figures(locale, manner) };
  return last.figures;
}
