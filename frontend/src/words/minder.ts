import { de } from './minder.de';
import { en } from './minder.en';
import { spoken } from './tongue.svelte';

/** Whoever minds the place. */
export const minder_words = spoken({ en, de });
