import { season_de } from './season.de';
import { season_en } from './season.en';
import { spoken } from './tongue.svelte';

/** Words of Season. */
export const season_words = spoken({ en: season_en, de: season_de });
