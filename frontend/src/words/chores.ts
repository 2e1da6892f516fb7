import { de } from './chores.de';
import { en, type ChoresWords } from './chores.en';
import { spoken } from './tongue.svelte';

/** Words of chores where Rounds opens. */
export const chores_words = spoken<ChoresWords>({ en, de });
