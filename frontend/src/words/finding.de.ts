/** Die Wörter fürs Finden eines Postens, fürs Lesen eines Etiketts und fürs Drucken. */
import type { FindingWords } from './finding.en';
import { many } from './many';

const count = many('de-AT');

export const de = {
  title: 'Einen Posten suchen',
  field: 'Suchen nach Art, Name oder Nummer',
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
    none: 'Hier gibt es keine Kamera. Die Nummer eintippen, die auf dem Etikett steht.',
    torn: 'Zu dunkel oder zerrissen?',
    open: 'Öffnen',
    lamp_on: 'Lampe an',
    lamp_off: 'Lampe aus',
    not_ours: 'Dieser Code ist keiner von uns.',
    joins: 'Mit diesem Code tritt ein Telefon einem Haushalt bei: dort scannen, wo man beitritt.',
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
} satisfies FindingWords;
