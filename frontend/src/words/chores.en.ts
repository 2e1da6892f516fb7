/** Chores where Rounds opens: before dark, whose, given away and taken on. */
export const en = {
  tonight: 'Before dark.',
  tonight_of: {
    vent: (space: string) => `Air for the night: ${space}`,
    air: (space: string) => `Air: ${space}`,
    frost: (space: string) => `Frost tonight: ${space}. What lies coldest comes in or is covered.`,
    shut_in: (group: string) => `Shut in: ${group}`,
    frost_near: (space: string, temp: string) =>
      `${space} showed ${temp}: near frost. What stands by the outer wall comes in or is covered.`,
  },
  asked: {
    air: (space: string) => `Air: ${space}`,
    vent: (space: string) => `Air for the night: ${space}`,
    frost: (space: string) => `Against frost: ${space}`,
    shut_in: (name: string) => `Shut in: ${name}`,
    empty_stash: (name: string) => `Empty the stash${name ? `: ${name}` : ''}`,
    turn_heap: (name: string) => `Turn the heap: ${name}`,
  } as Readonly<Record<string, (name: string) => string>>,
  a_chore: 'A chore',
  at: (time: string) => `at ${time}`,
  since: (day: string) => `since ${day}`,
  not_today: 'I can’t today',
  take_it: 'I do it',
  given_away: (what: string) => `Kept: ${what} is free for another`,
  taken: (what: string) => `Kept: ${what} is yours`,
  had_first: (who: string) => `${who} had it first.`,
  had_first_more: (what: string) => `${what} is done by them; you need do nothing.`,
  ahead_link: 'The next 14 days',
  walk: (space: string) => `Walk: ${space}`,
  risk: (amount: string) => `Not walked: about ${amount} at risk.`,
};

export type ChoresWords = typeof en;
