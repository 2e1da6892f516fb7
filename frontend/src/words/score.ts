import { score_de } from './score.de';
import { score_en } from './score.en';
import { spoken } from './tongue.svelte';

/** Words of Season, how well the bands held. */
export const score_words = spoken({ en: score_en, de: score_de });
