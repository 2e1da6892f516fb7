/** The words of a power cut in the language spoken. */
import { de } from './power.de';
import { en, type PowerWords } from './power.en';
import { spoken } from './tongue.svelte';

export const power_words = spoken<PowerWords>({ en, de });
