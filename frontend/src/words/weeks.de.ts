/** Winter, Wochen: was wann zu essen ist. */
import { many } from './many';
import type { WeeksWords } from './weeks.en';

const count = many('de-DE');

export const weeks_de = {
  nothing: 'Noch gibt es keinen Plan.',
  nothing_how:
    'Es braucht eine Frucht im Lager, von der gegessen wird, oder einen Wochenverbrauch unter Pflanzen. Der Server des Haushalts rechnet ihn aus.',
  eat_and_hold: (crops, hold) => `${crops} zuerst essen; ${hold}.`,
  eat: (crops) => `${crops} zuerst essen.`,
  hold: (crop, day) => `${crop} bis ${day} aufheben`,
  only_hold: (hold) => `Alles hält sich gut; ${hold}.`,
  over_now: (crops) => `Mehr ${crops}, als gegessen wird: davon haltbar machen oder verschenken.`,
  all_keep: 'Alles hält sich gut: Auf die Reihenfolge kommt es kaum an.',
  saves: (middle, low, high) =>
    `In dieser Reihenfolge wird etwa ${middle} mehr gegessen (${low} bis ${high}) als gleichmäßig von allem.`,
  saves_little: 'Gleichmäßig von allem gegessen ginge kaum mehr verloren.',
  by_week: 'Woche für Woche',
  later: 'Weiter bis zur neuen Ernte',
  weeks: (n) => count(n, { one: '1 Woche', other: '# Wochen' }),
  over: 'Haltbar machen oder verschenken',
  over_more: 'Mehr, als gegessen wird, bevor es verloren ist.',
  none_over: 'Nichts bleibt übrig: Alles wird gegessen.',
  now: 'jetzt',
  put_by_or_give: 'haltbar machen oder verschenken, solange es gut ist',
  give: 'verschenken, solange es gut ist',
  sound_only: 'Nur gesunde Stücke: Was Fäule zeigt, wird nicht haltbar gemacht und nicht verschenkt.',
  how: 'Nach Wochenverbrauch, Gästen, Tagen außer Haus und dem, was jeder Posten wohl verliert.',
  as_of: (when) => `Stand ${when}.`,
} satisfies WeeksWords;
