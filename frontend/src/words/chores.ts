import { de } from './chores.de';
import { en, type ChoresWords } from './chores.en';
import { spoken } from './tongue.svelte';

/** Words of chores: whose, when, given away and taken on, and the form of one that comes again. */
export const chores_words = spoken<ChoresWords>({ en, de });
