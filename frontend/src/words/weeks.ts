import { spoken } from './tongue.svelte';
import { weeks_de } from './weeks.de';
import { weeks_en } from './weeks.en';

/** Words of Season, Weeks. */
export const weeks_words = spoken({ en: weeks_en, de: weeks_de });
