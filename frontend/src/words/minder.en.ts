import { many } from './many';

const count = many('en-GB');

/** Whoever minds the place. */
export const en = {
  title: (household: string) => `A week at ${household}`,
  days: (from: string, until: string) => `${from} to ${until}. What is not here can wait for us.`,
  ring: 'Whom to ring',
  emergency: 'Someone hurt, or fire: the emergency number of the country first.',
  way: 'The way here:',
  animals_day: (day: string) => `The animals, ${day}`,
  ice: 'Break the ice, or bring warm water.',
  dusk: 'Shut them in at dusk, and count them.',
  to_the_end: (n: number) =>
    n > 0
      ? `Fed. Water that is not frozen. Shut in at dusk, all ${n} counted.`
      : 'Fed. Water that is not frozen. Shut in at dusk and counted.',
  after: 'The other days',
  every_day: 'every day',
  print: 'Print this as one sheet',
  last_photo: (lot: string) => `${lot}, as it was seen last`,
  eggs: 'Eggs',
  egg_word: /egg/i,
  done: 'Done',
  is_done: 'Kept',
  walks: 'Walks',
  walk: (space: string) => `Walk: ${space}`,
  lots: (n: number) => count(n, { one: '1 lot', other: '# lots' }),
  start: 'Start',
  of: (at: number, all: number, space: string) => `${at} of ${all}, ${space}`,
  looked: 'Looked, nothing odd',
  next: 'Next',
  odd: 'Photograph something odd',
  not_looked: 'Not looked at',
  photographed: 'Photographed.',
  set_apart: 'Set it apart in this room, and leave it. Do not taste or sniff it. We decide.',
  look_only: 'Look, photograph, set apart. What is good to eat or to feed, we judge.',
  home: 'You may take home',
  home_sound: 'Sound pieces only.',
  unsure: 'Unsure of anything?',
  unsure_more: 'Photograph it and leave it; we decide. If it cannot wait, ring.',
  ends: (day: string) => `This link shows these days’ chores and nothing else, and ends after ${day}.`,
  over: 'This week is over. Thank you.',
  over_sends: 'What is unsent on this phone is still sent when it has signal, up to 30 days on.',
  no_signal: 'No signal. Open this page once where there is some.',
  back: 'The week',
  link: {
    open: 'A link for their days',
    opening: 'Opening the week',
    no_answer: 'No signal, or the server did not answer. Try again where there is some.',
    title: (name: string) => `A link for ${name}`,
    lead: (until: string) =>
      `It shows the chores and walks of these days and whom to ring, and ends after ${until}.`,
    from: 'First day',
    way: 'The way to the place',
    way_hint: 'For them, and for whoever they ring.',
    note: 'A word to them',
    home: 'What they may take home',
    home_hint: 'Sound pieces of the lots you tick.',
    make: 'Make the link',
    address: 'The link',
    once: 'Shown this once. Send it to them, or open it on their phone.',
    links: 'Links that are open',
    opened: (n: number) =>
      count(n, { zero: 'Not opened yet', one: 'Opened on 1 phone', other: 'Opened on # phones' }),
    end: 'End now',
  },
};

export type MinderWords = typeof en;
