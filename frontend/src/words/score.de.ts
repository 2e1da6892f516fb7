/** Winter: wie gut die eigenen Vorhersagen des Haushalts hielten. */
import { many } from './many';
import type { ScoreWords } from './score.en';

const count = many('de-DE');

export const score_de = {
  title: 'Wie gut die Spannen hielten',
  back: 'Winter',
  lead: (within, of, pct) => `${within} von ${of} Vorhersagen trafen in ihrer Spanne ein: ${pct}.`,
  should: 'Es sollten etwa 80 % sein.',
  handbook: (within, of) => `Das Handbuch allein: ${within} von ${of}.`,
  none: (made) =>
    made
      ? `${count(made, { one: '1 Vorhersage ist', other: '# Vorhersagen sind' })} aufgehoben; von keiner ist der Tag schon da und gesehen.`
      : 'Noch ist keine Vorhersage aufgehoben.',
  of: {
    sound_28: 'Gesund nach vier Wochen',
    sound_56: 'Gesund nach acht Wochen',
    run_out: 'Der Tag, an dem es ausgeht',
  },
  held: (within, of) =>
    `Von ${of} Spannen hielten ${within}; die gestrichelte Linie zeigt, wo es sein sollte.`,
  as_table: 'Als Tabelle',
  ours: 'eigene',
  books: 'Handbuch allein',
  within: 'In der Spanne',
  interval: 'Wert der Spanne, weniger ist besser',
  chances: 'Chancen, dass es reicht',
  brier: (ours, books) =>
    `Im Mittel der Quadrate daneben: ${ours}, das Handbuch ${books}; weniger ist besser.`,
  said_chance: 'Gesagt, von 100',
  said: 'wie oft',
  came: 'traf ein',
  from_to: (from, to) => `${from} bis ${to}`,
  widened: (by) => `Nach dem, was daraus wurde, sind die Spannen jetzt ${by}-mal so breit.`,
  narrowed: (by) => `Nach dem, was daraus wurde, sind die Spannen jetzt schmaler: ${by}-mal so breit.`,
  how: 'Eine Vorhersage je Posten und Woche wird aufgehoben, wie sie war. Ein ganzer Blick oder eine Zählung um ihren Tag sagt, was daraus wurde.',
  as_of: (when) => `Stand ${when}.`,
} satisfies ScoreWords;
