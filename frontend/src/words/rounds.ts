/** The words of Rounds in the language spoken: `rounds_words().lot.all_sound`. */
import { de as found_de } from './found.de';
import { en as found_en, type FoundWords } from './found.en';
import { de } from './rounds.de';
import { en, type RoundsWords } from './rounds.en';
import { spoken } from './tongue.svelte';

export const rounds_words = spoken<RoundsWords & FoundWords>({
  en: { ...en, ...found_en },
  de: { ...de, ...found_de },
});
