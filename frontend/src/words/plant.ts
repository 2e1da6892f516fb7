import { plant_de } from './plant.de';
import { plant_en } from './plant.en';
import { spoken } from './tongue.svelte';

/** Words of Season, Plant. */
export const plant_words = spoken({ en: plant_en, de: plant_de });
