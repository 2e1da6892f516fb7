import { de } from './chore_pages.de';
import { en, type ChorePagesWords } from './chore_pages.en';
import { spoken } from './tongue.svelte';

/** Words of the pages of chores; apart from those Rounds opens with. */
export const chore_pages_words = spoken<ChorePagesWords>({ en, de });
