/** Winter: was von jeder Frucht da ist, wie es bekannt ist, und die Luft der Räume. */
import { many } from './many';
import type { SeasonWords } from './season.en';

const count = many('de-DE');

export const season_de = {
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
} satisfies SeasonWords;
