/** Die Wörter der Reste. */
import type { ScrapsWords } from './scraps.en';

export const de = {
  week: (amount) => `${amount} Reste diese Woche.`,
  none: 'Diese Woche wurden keine Reste aufgeschrieben.',
  none_how: 'Was beim Rundgang aussortiert oder geputzt wird, steht hier nach dem, wohin es ging.',
  no_bin: 'Nichts ging in den Müll.',
  by_place: 'Diese Woche, nach dem Wohin',
  by_crop: 'Nach Art',
  winter: 'Dieser Winter',
  crop: 'Art',
  pot: 'Suppentopf',
  animals: 'Tiere',
  compost: 'Kompost',
  bin: 'Müll',
  unweighed: (pieces) => `und ${pieces} nicht gewogen`,
  accidents: 'Trotzdem gefressen',
  accident: (crop, group) => `${crop}, ${group}`,
  since: (day) => `Seit ${day}`,
  mixed: 'Gemischt',
  week_days: (from, to) => `${from} bis ${to}`,
  before: 'Die Woche davor',
  after: 'Die Woche danach',
} satisfies ScrapsWords;
