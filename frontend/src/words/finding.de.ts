/** Die Wörter fürs Finden eines Postens, fürs Lesen eines Etiketts und fürs Drucken. */
import type { FindingWords } from './finding.en';
import { many } from './many';

const count = many('de-AT');

export const de = {
  title: 'Einen Posten suchen',
  field: 'Suchen nach Art, Name oder Nummer',
  short: 'Art oder Nummer',
  scan: 'Scannen',
  by_what: 'Nach Art, Sorte, Nummer, Raum oder Zustand: „Möhre“, „412“, „Dachboden“, „Weichfäule“, „härtet“.',
  found: (n) => count(n, { one: '1 Posten gefunden.', other: '# Posten gefunden.' }),
  found_none: (text) => `Nichts heißt „${text}“.`,
  more: (n) => count(n, { other: '# weitere zeigen' }),
  eaten_up: 'Bis zum Ende gegessen',
  states: {
    finished: 'aufgegessen, leer',
    curing: 'härtet nach',
    suspect: 'Verdacht, zweifelhaft',
    seed: 'für Saatgut',
  },
  lens: {
    title: 'Ein Etikett scannen',
    picture: 'Was die Kamera sieht',
    opening: 'Die Kamera geht auf.',
    hold: 'Den Code zwischen die Ecken halten.',
    by_itself: 'Es öffnet sich von selbst. Nichts wird fotografiert oder behalten.',
    refused:
      'Die Kamera ist nicht erlaubt. Die Nummer eintippen, oder die Kamera in den Einstellungen des Telefons erlauben.',
    none: 'Hier gibt es keine Kamera. Die Nummer vom Etikett eintippen.',
    number: 'Oder die Nummer',
    open: 'Öffnen',
    lamp_on: 'Lampe an',
    lamp_off: 'Lampe aus',
    not_ours: 'Dieser Code ist keiner von uns.',
    joins: 'Dieser Code verbindet ein Telefon mit einem Haushalt. Dafür gibt es eine eigene Seite.',
    nothing_typed: 'Erst die Nummer eintippen.',
  },
  label: {
    several: (n) => count(n, { other: '# Posten haben diese Nummer. Welcher ist es?' }),
    unknown: (code) => `Kein Posten heißt hier ${code}.`,
    unknown_why:
      'Vielleicht gehört es einem anderen Haushalt, oder das Telefon, auf dem es steht, hat noch nicht gesendet.',
    blank: 'Dieses Etikett hängt noch an keinem Posten.',
    blank_why: 'Eine Kiste damit einlagern, oder es einem Posten geben, der schon da ist.',
    put_away: 'Mit diesem Etikett einlagern',
    give: 'Einem Posten geben',
    which: 'Welchem Posten?',
    this_one: 'Diesem',
    give_to: (lot) => `${lot} geben`,
    given: (code) => `Behalten: er heißt jetzt ${code}.`,
    another: 'Ein anderes scannen',
  },
  labels: {
    title: 'Etiketten drucken',
    which: 'Welche',
    waiting: (n) => count(n, { one: '1 Posten ohne Etikett', other: '# Posten ohne Etikett' }),
    blank: 'Leere, für Posten, die noch kommen',
    blank_why:
      'Jedes trägt eine Nummer dieses Telefons. An eine Kiste hängen und dort scannen: sie wird mit dieser Nummer eingelagert.',
    how_many: 'Wie viele noch',
    set_aside: (n) => count(n, { one: '1 Nummer zurücklegen', other: '# Nummern zurücklegen' }),
    fewer: (n) =>
      count(n, {
        one: 'Dieses Telefon hatte noch 1 Nummer. Weitere kommen, wenn es gesendet hat.',
        other: 'Dieses Telefon hatte noch # Nummern. Weitere kommen, wenn es gesendet hat.',
      }),
    too_small: 'So klein kann kein Telefon den Code lesen. Weniger auf ein Blatt.',
    none: 'Kein Etikett zu drucken.',
    on_sheets: (labels, sheets) =>
      `${count(labels, { one: '1 Etikett', other: '# Etiketten' })} auf ${count(sheets, { one: '1 Blatt', other: '# Blättern' })}. Die Linie ist für den Bleistift; an den Punkten schneiden.`,
    preview: 'So kommen sie heraus',
    print: (n) => count(n, { one: '1 Etikett drucken', other: '# Etiketten drucken' }),
    came_out: 'Sind sie gut herausgekommen?',
    all_well: 'Ja, alle',
    noted: 'Vermerkt: gedruckt.',
  },
  sheet: {
    title: (columns, rows) => `Das Blatt: ${columns} Spalten, ${rows} Zeilen`,
    paper: 'Papier',
    papers: { a4: 'A4', letter: 'Letter' },
    columns: 'Spalten',
    rows: 'Zeilen',
    top: 'Rand oben',
    side: 'Rand seitlich',
    used: 'Schon verbraucht',
  },
} satisfies FindingWords;
