/** Was geschah, in wenigen Worten. */
import type { KindWords } from './kinds.en';
import { many } from './many';

const count = many('de-DE');

export const kinds_de = {
  put_away: { verb: 'Eingelagert' },
  take: {
    verb: 'Genommen',
    for: { eat: '', give: 'verschenkt', seed: 'als Saatgut' },
    last: 'das Letzte davon',
  },
  cull: { verb: 'Heraus' },
  trim: { verb: 'Geputzt' },
  move: { verb: 'Umgeräumt', part: 'Einen Teil umgeräumt', to: (space) => `nach: ${space}` },
  count: {
    verb: 'Gezählt',
    gone: {
      eaten: 'der Rest wurde gegessen',
      given: 'der Rest wurde verschenkt',
      lost: 'der Rest ging verloren',
      dried: 'der Rest ist eingetrocknet',
      unknown: 'niemand weiß, wo der Rest blieb',
    },
  },
  set_aside: {
    verb: 'Als Saatgut zurückgelegt',
    freed: 'Nicht mehr Saatgut',
    treated: 'gebeizt, also kein Essen mehr',
  },
  put_by: {
    verb: 'Haltbar gemacht',
    method: { freeze: 'eingefroren', dry: 'getrocknet', ferment: 'vergoren', jar: 'eingeweckt' },
    containers: (n) => count(n, { one: '1 Gefäß', other: '# Gefäße' }),
  },
  reading: {
    verb: 'Luft abgelesen',
    low: (temp) => `kältester Wert ${temp}`,
    high: (temp) => `wärmster Wert ${temp}`,
  },
  round: { verb: 'Gang gegangen' },
  inspection: {
    verb: 'Durchgesehen',
    none: 'Nicht angesehen',
    why_not: { out_of_reach: 'außer Reichweite', no_time: 'keine Zeit', other: '' },
    sound: 'alles gesund',
    out: (n) => `${n} heraus`,
    trimmed: (n) => `${n} geputzt`,
    some_trimmed: 'einige geputzt',
  },
  suspect: { verb: 'Zweifelhaft', lies: { held: 'bleibt liegen', set_apart: 'beiseite gelegt' } },
  decision: {
    verb: 'Entschieden',
    do: {
      keep: 'behalten',
      use_first: 'zuerst verbrauchen',
      trim: 'putzen und verbrauchen',
      raw: 'roh',
      cook: 'kochen',
      pot: 'Topf',
      animals: 'Tiere',
      compost: 'Kompost',
      bin: 'Tonne',
    },
  },
  chore_done: { verb: 'Erledigt', chore: 'eine Arbeit' },
  offer: { verb: 'Abgegeben' },
  claim: {
    verb: 'Übernommen',
    chore: 'eine Arbeit',
    pick_over: (lot) => `${lot} durchsehen`,
    walk: (space) => `Gang: ${space}`,
  },
  scrap: { verb: 'Reste', mixed: 'gemischt' },
  lay: {
    verb: 'Eier',
    eggs: (n) => count(n, { one: '1 Ei', other: '# Eier' }),
    broken: (n) => count(n, { one: '1 zerbrochen', other: '# zerbrochen' }),
  },
  strike: { verb: 'Gestrichen' },
  edit: {
    verb: 'Neu beschrieben',
    types: {
      household: 'Haushalt',
      person: 'Person',
      space: 'Raum',
      lot: 'Posten',
      animals: 'Tiere',
      weekly_use: 'Wochenverbrauch',
      guests: 'Gäste',
      vessel: 'Gefäß',
      chore: 'Arbeit',
      crop: 'Frucht',
      figure: 'eigene Zahl',
    },
  },
  unknown: 'Von einer neueren Fassung geschrieben',
  not_here: 'ein Posten, der nicht auf diesem Telefon ist',
  went_to: {
    raw: 'roh gegessen',
    cook: 'zum Kochen',
    pot: 'in den Topf',
    animals: 'an die Tiere',
    compost: 'auf den Kompost',
    bin: 'in die Tonne',
  },
  to_group: (group) => `an ${group}`,
  cut_in: { store: 'im Lager', yard: 'im Hof', kitchen: 'in der Küche' },
  accident: 'Unfall',
  guessed: 'geschätzt',
  with_photos: (n, size) => `${count(n, { one: '1 Foto', other: '# Fotos' })}${size ? `, ${size}` : ''}`,
} satisfies KindWords;
