import { de } from './people.de';
import { en, type PeopleWords } from './people.en';
import { spoken } from './tongue.svelte';

/** What somebody of the household can give. */
export const people_words = spoken<PeopleWords>({ en, de });
