import type { RemindersWords } from './reminders.en';

/** Erinnerungen: Kalender, Hinweise, Post, Ruhezeiten. */
export const de = {
  title: 'Erinnerungen',
  title_for: (name) => `Erinnerungen für ${name}`,
  lead: 'Was deins ist, dort gesagt, wo du hinsiehst. Was heute Abend sein muss, steht trotzdem unter Gänge.',
  offline: 'Das wird auf dem Server eingestellt. Er antwortet gerade nicht.',
  calendar: 'Im Kalender',
  no_link: 'Ein privater Link, den ein Kalender selbst abfragt: deine Gänge und Arbeiten von 14 Tagen.',
  link_since: (day) => `Es gibt einen Link vom ${day}.`,
  make_link: 'Einen Link machen',
  another_link: 'Ein neuer Link',
  take_back: 'Zurücknehmen',
  once: 'Nur dieses eine Mal gezeigt. Wer ihn hat, sieht deine Tage: nur dem eigenen Kalender geben. Ein neuer Link beendet den vorigen.',
  notices: 'Auf diesem Telefon',
  push_is_on: 'Eine Zusammenfassung am Tag kommt auf dieses Telefon.',
  push_is_off: 'Auf dieses Telefon kommt nichts.',
  push_switch_on: 'Zusammenfassung auf dieses Telefon',
  push_switch_off: 'Nichts mehr senden',
  no_push_here: 'Dieser Browser nimmt keine Hinweise an.',
  push_not: {
    refused:
      'Dem Browser wurde gesagt, keine Hinweise zu zeigen. Das ändert man in seinen eigenen Einstellungen.',
    none: 'Dieser Browser erreicht gerade keinen Push-Dienst. Mit Empfang noch einmal versuchen.',
  },
  mail: 'Per E-Mail',
  mail_on: 'Eine E-Mail am Tag, wenn etwas ist',
  mail_to: 'Adresse',
  address_missing: 'Eine Adresse schreiben oder E-Mail auslassen.',
  no_mail_here: 'Dieser Server sendet keine E-Mail. Wer ihn betreibt, kann das einrichten.',
  when: 'Wann',
  at: 'Die Zusammenfassung um',
  at_hint: 'Eine am Tag. Was für heute Abend dazukommt, wird bis Mittag noch einmal gesagt.',
  quiet_from: 'Ruhe von',
  quiet_until: 'Ruhe bis',
  quiet_hint: 'In der Ruhezeit kommt nichts.',
  nothing_secret: 'Kein Hinweis, keine E-Mail und kein Kalender nennt Mengen, Menschen oder Telefonnummern.',
} satisfies RemindersWords;
