import { kinds_de } from './kinds.de';
import { kinds_en } from './kinds.en';
import { spoken } from './tongue.svelte';

/** What happened, by kind of entry. */
export const kind_words = spoken({ en: kinds_en, de: kinds_de });
