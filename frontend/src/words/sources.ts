/** The words of the sheet of sources in the language spoken. */
import { sources_de as de } from './sources.de';
import { sources_en as en } from './sources.en';
import { spoken } from './tongue.svelte';

export const source_words = spoken({ en, de });
