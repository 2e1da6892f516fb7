/** Küche: was jetzt zu verbrauchen ist, und warum. */
import type { KitchenWords } from './kitchen.en';
import { many } from './many';

const count = many('de-DE');

export const kitchen_de = {
  nothing: 'Nichts ist eingelagert, das sich verbrauchen ließe.',
  begin: 'Den ersten Posten einlagern',
  all_young: (name) => `Nichts kippt gerade. Am ältesten: ${name}.`,
  first: (name) => `Zuerst ${name}.`,
  age: (days) => count(days, { one: 'Seit 1 Tag im Lager.', other: 'Seit # Tagen im Lager.' }),
  today: 'Heute eingelagert.',
  seen: (findings) => `Zuletzt gesehen: ${findings}.`,
  seen_on: (finding, pieces, looked) => `${finding} an ${pieces} von ${looked}`,
  keeps_until: (day) => `Am besten bis ${day}.`,
  use_first: 'Jemand hat entschieden: zuerst verbrauchen.',
  suspects: (n) =>
    count(n, {
      one: 'Ein Stück wartet auf eine Entscheidung.',
      other: '# Stücke warten auf eine Entscheidung.',
    }),
  took_some: 'Etwas genommen',
  why: 'Warum',
  rest: (n) => count(n, { one: 'Und 1 weiterer', other: 'Und # weitere' }),
  photo: (name, day) => `${name}, ${day}`,
  source: 'Quelle',
  tabs: { turn: 'Am Kippen', may_i: 'Darf ich?', pot: 'Topf', put_by: 'Haltbar' },
  may_i: {
    title: 'Was darf ich damit?',
    from_store: 'Aus dem Lager',
    in_hand: 'Was sonst in der Hand liegt',
    any_crop: 'Etwas anderes',
    choose_crop: 'Wählen',
    another: 'Etwas anderes',
    what_seen: 'Was ist zu sehen?',
    other_findings: 'Noch etwas',
    which_part: 'Nur ein Teil davon?',
    whole_hint: 'Nichts gewählt: das ganze Stück.',
    where_cut: 'Wo wird es geschnitten?',
    places: { store: 'Lager', yard: 'Hof', kitchen: 'Küche' },
    say_what: 'Sag, was daran zu sehen ist.',
    ask_adult: 'Wozu es taugt, sagt jemand Erwachsenes.',
    heads: {
      raw: 'Roh, gekocht, nach Belieben.',
      trim: 'Ausschneiden und bald kochen.',
      cook: 'Kochen.',
      pot: 'In den Suppentopf.',
      animals: 'Für die Tiere, nicht für Menschen.',
      compost: 'Auf den Kompost, nicht zum Essen.',
      bin: 'In den Müll, nicht zum Essen.',
      not_known: 'Nicht bekannt.',
    },
    not_raw: 'Nicht roh.',
    not_known_lead: 'Nicht bekannt.',
    not_known_more:
      'Keine Tabelle sagt, wozu das taugt. Nicht essen und keinem Tier geben, bis jemand mit Kenntnis es angesehen hat.',
    best_first: 'Das Beste zuerst',
    why: 'Warum',
    covered: 'Weich, schleimig oder überzogen: nichts davon.',
    defer:
      'Diese Seite sagt, was bekannt ist und woher; sehen und riechen kann sie nicht. Das Wort der Lebensmittelbehörde geht vor.',
    cut_down: 'Zurechtschneiden',
  },
  cut: {
    pieces: 'Stücke in der Hand',
    off: 'Sonst abgeschnitten',
    how_much: (part) => `${part}: wie viel`,
    where_to: (part) => `${part}: wohin`,
    rest: (grams) => `Das gute Innere, etwa ${grams}: auf den Tisch.`,
    rest_unweighed: 'Das gute Innere: auf den Tisch.',
    too_much: 'Es ist mehr abgeschnitten, als das Stück wog. Weniger angeben oder mehr Stücke.',
    back: 'Zurück',
    keep: 'Geschnitten, auf den Tisch',
    kept: 'Notiert: zurechtgeschnitten, das Gute auf den Tisch',
  },
} satisfies KitchenWords;
