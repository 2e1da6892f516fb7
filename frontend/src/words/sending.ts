import { sending_de } from './sending.de';
import { sending_en } from './sending.en';
import { spoken } from './tongue.svelte';

/** What waits, what was refused, and the ways out. */
export const sending_words = spoken({ en: sending_en, de: sending_de });
