import { de } from './child.de';
import { en, type ChildWords } from './child.en';
import { spoken } from './tongue.svelte';

/** A small child's own chores, and what looks odd. Few words. */
export const child_words = spoken<ChildWords>({ en, de });
