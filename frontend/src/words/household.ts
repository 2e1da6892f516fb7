import { household_de } from './household.de';
import { household_en } from './household.en';
import { spoken } from './tongue.svelte';

/** Words of the household pages and the first run. */
export const household_words = spoken({ en: household_en, de: household_de });
