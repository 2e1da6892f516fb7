import { spoken } from './tongue.svelte';
import { varieties_de } from './varieties.de';
import { varieties_en } from './varieties.en';

/** Words of Season, Varieties. */
export const varieties_words = spoken({ en: varieties_en, de: varieties_de });
