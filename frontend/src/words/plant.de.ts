/** Winter, Pflanzen: wie viel für den nächsten Winter einzulagern und zu pflanzen ist. */
import { many } from './many';
import type { PlantWords } from './plant.en';

const count = many('de-DE');

export const plant_de = {
  nothing: 'Noch ist zu wenig bekannt, um zu sagen, was zu pflanzen ist.',
  nothing_how:
    'Es braucht eine Frucht, von der acht Wochen lang gegessen wurde, oder einen gesagten Wochenverbrauch. Der Server des Haushalts rechnet es aus.',
  more_and_less: (more, less) => `Mehr ${more} pflanzen und weniger ${less}.`,
  more: (more) => `Mehr ${more} pflanzen.`,
  less: (less) => `Weniger ${less} pflanzen.`,
  as_before: 'Etwa so viel pflanzen wie zuletzt.',
  enough: 'Reicht in 8 von 10 Wintern bis zur nächsten Ernte, nach dem Schwund.',
  crop: 'Frucht',
  put_away: 'Einlagern',
  plant: 'Pflanzen',
  had: (amount) => `waren ${amount}`,
  range: (low, high) => `${low} bis ${high}`,
  plants: (n) => count(n, { one: '1 Pflanze', other: '# Pflanzen' }),
  from: 'Verbrauch: was in euren Wintern genommen und was gesagt wurde. Ertrag: die eigene Zahl, sonst die gedruckte.',
  as_of: (when) => `Stand ${when}.`,
  unknown: (crops) => `Zu wenig bekannt von: ${crops}.`,
  sow: 'Zu säen oder auszupflanzen',
  months: (from, until) => `${from} bis ${until}`,
  sow_hint: 'Monate der Tabellen, für gemäßigte Gärten: Der eigene Frühling entscheidet.',
  back: 'Anbau',
  no_such: 'Für diese Frucht ist noch nichts ausgerechnet.',
  lead: (amount) => `${amount} einlagern.`,
  lead_plant: (amount, plants) => `${amount} einlagern: ${plants} pflanzen.`,
  service: (range) => `Reicht in 8 von 10 Wintern; in 5 bis 9 von 10: ${range}.`,
  need: (amount, range, weeks) =>
    `Zu essen in ${count(weeks, { one: '1 Woche', other: '# Wochen' })}: etwa ${amount} (${range}).`,
  told: 'Nach dem gesagten Wochenverbrauch und den eigenen Wintern.',
  not_told: 'Nach den eigenen Wintern.',
  seed: (amount) => `Dazu ${amount} als Saatgut.`,
  kept: (of_100, lots) =>
    lots
      ? `Von 100 eingelagerten kommen etwa ${of_100} zu etwas: ${count(lots, { one: '1 beendeter Posten', other: '# beendete Posten' })} und das Handbuch.`
      : `Von 100 eingelagerten kommen etwa ${of_100} zu etwas, nach dem Handbuch allein.`,
  edible: (fresh, late) => `Geschält werden frisch ${fresh} davon gegessen, am Ende ${late}.`,
  winters: 'Eure Winter',
  winter: (year, next, amount) => `${year}/${next}: ${amount} eingelagert`,
  eaten: (amount) => `gegessen ${amount}`,
  given: (amount) => `verschenkt ${amount}`,
  put_by: (amount) => `haltbar gemacht ${amount}`,
  lost: (amount) => `verloren ${amount}`,
  left: (amount) => `noch ${amount} da`,
  ended: (what, day) => (what ? `${what}; alles weg am ${day}` : `alles weg am ${day}`),
  yield: 'Ertrag',
  brings: {
    plant: (w) => `Eine Pflanze bringt ${w}.`,
    metre: (w) => `Ein Meter Reihe bringt ${w}.`,
  },
  printed: (w) => `Gedruckt: ${w}.`,
  own: 'Die eigene Zahl.',
  own_figures: 'Eigene Zahlen',
  source: 'Quelle',
  own_yield: { plant: 'Eigener, je Pflanze', metre: 'Eigener, je Meter Reihe' },
  own_use: 'Gegessen in der Woche',
  own_use_soft: 'solange es frisch ist',
  keep: 'Behalten',
  kept_own: 'Behalten. Der Server rechnet neu, sobald er davon hört.',
  keepers: 'Eigene Zahlen setzt, wer den Haushalt führt.',
  plot: 'Was in jedem Winter eingelagert wurde, neben dem, was gebraucht wird.',
  wanted: 'gebraucht, 8 von 10 Wintern',
  was_put_away: 'eingelagert',
  as_table: 'Als Tabelle',
} satisfies PlantWords;
