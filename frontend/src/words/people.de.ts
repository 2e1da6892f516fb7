import type { PeopleWords } from './people.en';

/** Was jemand geben kann. */
export const de = {
  minutes: 'Zeit je Woche',
  minutes_for: 'für Gänge und Arbeiten',
  days: 'Tage, die gehen',
  days_hint: 'Keiner gewählt: jeder Tag.',
  born: 'Geburtsjahr',
  born_hint: 'Damit niemand um etwas gebeten wird, das nicht zum Alter passt.',
  turns: (age) => `Wird dieses Jahr ${age}.`,
  cannot: 'Nicht gefragt für',
  needs: {
    ladder: 'eine Leiter',
    knife: 'ein Messer',
    lifting: 'Heben',
    not_alone: 'was man nicht allein tut',
  },
  cannot_hint: 'Was angekreuzt ist, geht an andere.',
  child_hint: 'Ein kleines Kind wird um nichts davon gebeten.',
  rounds_hint: 'Ein älteres Kind wird nie um etwas gebeten, das man nicht allein tut.',
  away: 'Abwesend',
  away_from: 'Erster Tag fort',
  away_until: 'Letzter Tag fort',
  away_hint: 'An diesen Tagen wird um nichts gebeten, und sie zählen nicht.',
  away_order: 'Der letzte Tag steht vor dem ersten.',
  picture: 'Ihr Bild',
  reminders: 'Erinnerungen',
} satisfies PeopleWords;
