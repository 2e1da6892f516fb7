/** The words of rounds walked with paper and pencil, in the language spoken: `pencil_words().title`. */
import { de } from './pencil.de';
import { en } from './pencil.en';
import { spoken } from './tongue.svelte';

export const pencil_words = spoken({ en, de });
