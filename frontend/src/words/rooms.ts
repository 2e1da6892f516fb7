import { rooms_de } from './rooms.de';
import { rooms_en } from './rooms.en';
import { spoken } from './tongue.svelte';

/** Words of Season, Rooms. */
export const rooms_words = spoken({ en: rooms_en, de: rooms_de });
