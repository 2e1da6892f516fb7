/** Winter: was von jeder Frucht da ist, wie es bekannt ist, und die Luft der Räume. */
import { many } from './many';
import type { SeasonWords } from './season.en';

const count = many('de-DE');

export const season_de = {
  tabs: { outlook: 'Aussicht', rooms: 'Räume', weeks: 'Wochen', varieties: 'Sorten', plant: 'Anbau' },
  nothing: 'Noch ist nichts eingelagert, also gibt es nichts vorauszusehen.',
  begin: 'Den ersten Posten einlagern',
  lead: (amount, crops) => `Etwa ${amount} von ${crops} liegen im Lager.`,
  lead_lots: (lots, crops) => `${lots} von ${crops} liegen im Lager.`,
  crops: (n) => count(n, { one: '1 Frucht', other: '# Früchten' }),
  known: (counted, worked_out, presumed) =>
    [
      counted ? `${count(counted, { other: '#' })} gezählt` : '',
      worked_out ? `${count(worked_out, { other: '#' })} ausgerechnet` : '',
      presumed ? `${count(presumed, { other: '#' })} vermutet: Lange hat niemand etwas aufgeschrieben` : '',
    ]
      .filter(Boolean)
      .join(', '),
  lots_known: 'Posten:',
  by_crop: 'Je Frucht',
  eaten: (amount) => `gegessen ${amount}`,
  given: (amount) => `verschenkt ${amount}`,
  lost: (amount) => `verloren ${amount}`,
  put_by: (amount) => `haltbar gemacht ${amount}`,
  of: (amount) => `von ${amount} eingelagert`,
  rooms: 'Räume, wie zuletzt abgelesen',
  no_reading: 'noch nicht abgelesen',
  coldest: (temp) => `am kältesten ${temp}`,
  warmest: (temp) => `am wärmsten ${temp}`,
  winters: '8 von 10 Wintern',
  likeliest: 'wahrscheinlich',
  new_harvest: 'neue Ernte',
  not_ahead: 'Gezählt, nicht vorausgesehen',
  lasts: (day, low, high) => `Reicht bis ${day} (${low} bis ${high}).`,
  lasts_from: (low) => `Reicht über ein Jahr; 1 von 10 Wintern nur bis ${low}.`,
  lasts_over: 'Reicht über ein Jahr.',
  over_a_year: 'über ein Jahr',
  no_use: 'Niemand hat gesagt, wie viel in der Woche gegessen wird; so viel hält sich.',
  meets: (in_100, day) => `${in_100} von 100, dass es bis zur neuen Ernte um den ${day} reicht.`,
  hardly_meets: (day) => `Weniger als 1 von 100, dass es bis zur neuen Ernte um den ${day} reicht.`,
  surely_meets: (day) => `Über 99 von 100, dass es bis zur neuen Ernte um den ${day} reicht.`,
  band: (now, weeks, low, high) =>
    `Jetzt etwa ${now} gesund; in ${count(weeks, { one: '1 Woche', other: '# Wochen' })} ${low} bis ${high}.`,
  as_of: (when) => `Stand ${when}.`,
  as_of_moved: (when) => `Stand ${when}, verschoben um das seither Geschriebene; die Chance nicht.`,
  bands_held: 'Wie gut hielten die Spannen?',
  as_table: 'Als Tabelle',
  day: 'Tag',
  low: 'niedrig',
  high: 'hoch',
  one_in_ten: 'Ein Winter von zehn liegt unter niedrig, einer von zehn über hoch.',
} satisfies SeasonWords;
