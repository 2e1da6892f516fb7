/** The words of Rounds in the language spoken: `rounds_words().lot.all_sound`. */
import { de as found_de } from './found.de';
import { en as found_en } from './found.en';
import { de } from './rounds.de';
import { en } from './rounds.en';
import { spoken } from './tongue.svelte';

export const rounds_words = spoken({ en: { ...en, ...found_en }, de: { ...de, ...found_de } });
