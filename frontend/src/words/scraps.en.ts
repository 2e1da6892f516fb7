/** The words of Scraps. */
export const en = {
  week: (amount: string) => `${amount} of scraps this week.`,
  none: 'No scraps were written down this week.',
  none_how: 'What is taken out or trimmed on a round stands here by where it went.',
  no_bin: 'Nothing went to the bin.',
  by_place: 'This week, by where it went',
  by_crop: 'By crop',
  winter: 'This winter',
  crop: 'Crop',
  pot: 'Stock pot',
  animals: 'Animals',
  compost: 'Compost',
  bin: 'Bin',
  unweighed: (pieces: string) => `and ${pieces} not weighed`,
  accidents: 'Eaten all the same',
  accident: (crop: string, group: string) => `${crop}, ${group}`,
  since: (day: string) => `Since ${day}`,
  mixed: 'Mixed',
  week_days: (from: string, to: string) => `${from} to ${to}`,
  before: 'The week before',
  after: 'The week after',
};

export type ScrapsWords = typeof en;
