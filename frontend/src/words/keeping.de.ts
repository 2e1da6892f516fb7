/** Wie ein Posten sich hält, auf seiner Seite. */
import type { KeepingWords } from './keeping.en';
import { many } from './many';

const count = many('de-DE');

export const keeping_de = {
  title: 'Wie er sich hält',
  sound: (now, low, high) => `${now} von 100 noch gesund (${low} bis ${high}).`,
  expected: (low, high) => `Bis heute erwartet: ${low} bis ${high}.`,
  word: { behind: 'Schlechter als erwartet.', ahead: 'Besser als erwartet.', as_expected: 'Wie erwartet.' },
  of_what: 'Von dem, was eingelagert und nicht gegessen wurde.',
  expected_by: 'Erwartet nach dem Handbuch, und nach euren eigenen beendeten Posten, sobald es sie gibt.',
  look_every: (days) => `Jetzt alle ${count(days, { one: 'Tage', other: '# Tage' })} durchsehen.`,
  as_of: (when) => `Stand ${when}.`,
  as_of_moved: (when) => `Stand ${when}; Runden seither haben ihre Ringe, die Bereiche kennen sie nicht.`,
  legend_expected: 'erwartet, 8 von 10',
  legend_likeliest: 'wahrscheinlich',
  legend_rounds: 'Ringe: eure Runden; Balken: jetzt',
  drawn: (now, expected, later, weeks) =>
    `${now} von 100 jetzt gesund, ${expected} erwartet; ${later} erwartet ${count(weeks, { one: '1 Woche', other: '# Wochen' })} nach dem Einlagern.`,
  silent: {
    no_figures: 'Dafür ist zu wenig bekannt: keine Haltbarkeit, kein Stückgewicht oder keine Menge.',
    no_sense: 'Aus dem, was davon geschrieben ist, ließ sich nichts ausrechnen.',
  },
  cannot_be: (why) => `Es ließ sich nichts ausrechnen. ${why}`,
  as_table: 'Als Tabelle',
  day: 'Tag',
  low: 'niedrig',
  likely: 'erwartet',
  high: 'hoch',
  rounds: 'Eure Runden',
  left: 'von 100 gesund',
} satisfies KeepingWords;
