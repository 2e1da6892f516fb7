import { keeping_de } from './keeping.de';
import { keeping_en } from './keeping.en';
import { spoken } from './tongue.svelte';

/** Words of how a lot is keeping. */
export const keeping_words = spoken({ en: keeping_en, de: keeping_de });
