/** Die Wörter für Gänge mit Papier und Bleistift. */
import { many } from './many';
import type { PencilWords } from './pencil.en';

const count = many('de-AT');

export const de = {
  title: 'Auf Papier',
  lead: 'Einen Bogen drucken, mit dem Bleistift durchgehen, danach alles auf einmal eintippen.',
  nothing: 'Noch ist nichts eingelagert.',
  print: 'Den Bogen drucken',
  print_of: (space) => `Den Bogen drucken: ${space}`,
  type: 'Eintippen',
  type_of: (space) => `Eintippen: ${space}`,
  sheet_of: (space) => `Bogen: ${space}`,
  how: 'Bei jedem Posten ankreuzen oder schreiben. Eine leere Zeile bleibt fällig.',
  preview: 'So kommt er heraus',
  print_sheets: (n) => count(n, { one: '1 Blatt drucken', other: '# Blätter drucken' }),
  day: 'Tag',
  who: 'Wer',
  warmth: 'Wärme',
  damp: 'Feuchte',
  foot: 'Zweifelhaft, nass oder pelzig: beiseite legen und fotografieren. Nichts wird gekostet, um es herauszufinden. Blatt',
  look_for: (findings) => (findings ? `Achten auf: ${findings}` : ''),
  sound: 'Alles gesund',
  some: 'Etwas gesehen',
  not: 'Nicht angesehen',
  looked: (n) => (n === undefined ? 'Angesehen' : `Angesehen (${n})`),
  out: 'Heraus',
  seen: 'Was zu sehen war',
  to: 'Wohin',
  typed_of: (space) => `Eingetippt: ${space}`,
  typed_how:
    'Wie es auf dem Papier steht. Was als zweifelhaft beiseite liegt, wird auf einem Gang fotografiert.',
  day_walked: 'Tag auf dem Papier',
  keep: (n) => count(n, { one: 'Den Gang behalten, 1 Posten', other: 'Den Gang behalten, # Posten' }),
  kept: (n) => count(n, { one: 'Behalten: 1 Posten eingetippt.', other: 'Behalten: # Posten eingetippt.' }),
  nothing_typed: 'Mindestens einen Posten ankreuzen.',
} satisfies PencilWords;
