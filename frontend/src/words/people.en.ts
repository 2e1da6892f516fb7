/** What somebody can give. */
export const en = {
  minutes: 'Time a week',
  minutes_for: 'for rounds and chores',
  days: 'Days they can give',
  days_hint: 'None chosen: every day.',
  born: 'Year of birth',
  born_hint: 'So that nobody is asked for what does not suit their age.',
  turns: (age: number) => `Turns ${age} this year.`,
  cannot: 'Not asked for',
  needs: { ladder: 'a ladder', knife: 'a knife', lifting: 'lifting', not_alone: 'what is not done alone' },
  cannot_hint: 'What is ticked goes to another.',
  child_hint: 'A small child is never asked for any of these.',
  rounds_hint: 'An older child is never asked for what is not done alone.',
  away: 'Away',
  away_from: 'First day away',
  away_until: 'Last day away',
  away_hint: 'Nothing is asked for in these days, and they do not count.',
  away_order: 'The last day stands before the first.',
  picture: 'Their picture',
  reminders: 'Reminders',
};

export type PeopleWords = typeof en;
