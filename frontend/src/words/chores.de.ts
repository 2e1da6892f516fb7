import type { ChoresWords } from './chores.en';

/** Arbeiten: wessen, wann, abgegeben und übernommen; das Blatt einer wiederkehrenden. */
export const de = {
  tonight: 'Vor dem Dunkelwerden.',
  tonight_of: {
    vent: (space) => `Für die Nacht lüften: ${space}`,
    air: (space) => `Lüften: ${space}`,
    frost: (space) =>
      `Heute Nacht Frost: ${space}. Was am kältesten liegt, kommt herein oder wird abgedeckt.`,
    shut_in: (group) => `Einsperren: ${group}`,
    frost_near: (space, temp) =>
      `${space} zeigte ${temp}: nahe am Frost. Was an der Außenwand steht, kommt herein oder wird abgedeckt.`,
  },
  asked: {
    air: (space) => `Lüften: ${space}`,
    vent: (space) => `Für die Nacht lüften: ${space}`,
    frost: (space) => `Gegen Frost: ${space}`,
    shut_in: (name) => `Einsperren: ${name}`,
    empty_stash: (name) => `Den Topfvorrat leeren${name ? `: ${name}` : ''}`,
    turn_heap: (name) => `Den Haufen umsetzen: ${name}`,
  },
  a_chore: 'Eine Arbeit',
  at: (time) => `um ${time}`,
  since: (day) => `seit ${day}`,
  not_today: 'Heute kann ich nicht',
  take_it: 'Ich mache es',
  given_away: (what) => `Festgehalten: ${what} ist frei für andere`,
  taken: (what) => `Festgehalten: ${what} ist deins`,
  had_first: (who) => `${who} hatte es zuerst.`,
  had_first_more: (what) => `${what} ist damit vergeben; du musst nichts tun.`,
  ahead_link: 'Die nächsten 14 Tage',
  walk: (space) => `Gang: ${space}`,
  risk: (amount) => `Nicht begangen: etwa ${amount} in Gefahr.`,
} satisfies ChoresWords;
