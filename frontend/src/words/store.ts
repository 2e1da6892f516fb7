/** The words of the Store in the language spoken: `store_words().lot.life`. */
import { de } from './store.de';
import { en } from './store.en';
import { spoken } from './tongue.svelte';

export const store_words = spoken({ en, de });
