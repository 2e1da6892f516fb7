import type { ChildWords } from './child.en';

/** Eigene Arbeiten eines kleinen Kindes, und was seltsam aussieht. */
export const de = {
  odd: 'Etwas sieht seltsam aus',
  odd_what: 'Was ist es?',
  odd_where: 'Wo ist es?',
  odd_photo: 'Ein Foto machen',
  odd_again: 'Noch ein Foto',
  odd_leave: 'Lass es liegen. Nicht probieren.',
  odd_show: 'Einem Großen zeigen',
  odd_kept: 'Ein Großer sieht es sich an.',
  wash_too: 'Angefasst? Hände waschen.',
  back: 'Zurück',
  done: 'Getan',
  not_today: 'Heute nicht',
  well: 'Das ist getan.',
  photo_alt: (what) => `Foto: ${what}`,
} satisfies ChildWords;
