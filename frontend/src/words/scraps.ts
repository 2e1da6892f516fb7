/** The words of Scraps in the language spoken. */
import { de } from './scraps.de';
import { en } from './scraps.en';
import { spoken } from './tongue.svelte';

export const scraps_words = spoken({ en, de });
