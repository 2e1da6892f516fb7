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
} satisfies KitchenWords;
