/** Winter, Sorten: welche einer Frucht sich besser hielt. */
import { many } from './many';
import type { VarietiesWords } from './varieties.en';

const count = many('de-DE');
const winters = (n: number): string => count(n, { one: 'einem Winter', other: '# Wintern' });

export const varieties_de = {
  nothing: 'Es sind zu wenige Posten beendet, um Sorten zu vergleichen.',
  nothing_how:
    'Es braucht beendete Posten von zwei benannten Sorten einer Frucht. Die Sorte wird beim Einlagern genannt.',
  lead: {
    'not enough to tell': (crop, best, n) =>
      `${crop}: ${best} hielt sich bisher am besten; nach ${winters(n)} steht es noch nicht fest.`,
    probably: (crop, best, n) => `${crop}: ${best} hält sich wohl am besten, nach ${winters(n)}.`,
    clearly: (crop, best, n) => `${crop}: ${best} hält sich am besten, nach ${winters(n)}.`,
  },
  compared: (weeks, n) =>
    `Von 100 verloren in den ersten ${weeks} Wochen in einem guten Raum, mit der Spanne nach ${winters(n)}.`,
  shrink: (middle, low, high) => `${middle} (${low} bis ${high})`,
  about: (lots, weight, behind) => (behind ? `${lots}, ${weight}. ${behind}` : `${lots}, ${weight}`),
  behind: {
    'not enough to tell': 'Zu wenige, um es zu sagen: könnte ebenso gut die erste sein',
    probably: 'Hält sich wohl schlechter',
    clearly: 'Hält sich sehr wahrscheinlich schlechter',
  },
  side_by_side: 'Von jeder einen Posten nebeneinander lagern',
  side_by_side_more:
    'im nächsten Winter, dann kommt die Antwort früher: Bis jetzt kann es auch am Raum gelegen haben.',
  how: 'Nach den beendeten Posten. Eine Sorte mit wenigen Posten gilt als wie ihre Frucht, bis ihre eigenen Posten anderes sagen.',
  as_of: (when) => `Stand ${when}.`,
} satisfies VarietiesWords;
