import { kitchen_de } from './kitchen.de';
import { kitchen_en } from './kitchen.en';
import { spoken } from './tongue.svelte';

/** Words of Kitchen. */
export const kitchen_words = spoken({ en: kitchen_en, de: kitchen_de });
