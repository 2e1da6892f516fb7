import { de } from './reminders.de';
import { en, type RemindersWords } from './reminders.en';
import { spoken } from './tongue.svelte';

/** How somebody is reminded. */
export const reminders_words = spoken<RemindersWords>({ en, de });
