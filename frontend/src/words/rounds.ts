/** The words of Rounds in the language spoken: `rounds_words().lot.all_sound`. */
import { de } from './rounds.de';
import { en } from './rounds.en';
import { spoken } from './tongue.svelte';

export const rounds_words = spoken({ en, de });
