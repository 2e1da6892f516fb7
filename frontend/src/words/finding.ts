/** The words for finding a lot, scanning and labels in the language spoken: `finding_words().title`. */
import { de } from './finding.de';
import { en } from './finding.en';
import { spoken } from './tongue.svelte';

export const finding_words = spoken({ en, de });
