/** A small child's own chores, and what looks odd. */
export const en = {
  odd: 'Something looks odd',
  odd_what: 'What is it?',
  odd_where: 'Where is it?',
  odd_photo: 'Take a photo',
  odd_again: 'Another photo',
  odd_leave: 'Leave it there. Do not taste it.',
  odd_show: 'Show a grown-up',
  odd_kept: 'A grown-up looks at it.',
  wash_too: 'Did you touch it? Wash your hands.',
  back: 'Back',
  done: 'Done',
  not_today: 'Not today',
  well: 'That is done.',
  photo_alt: (what: string) => `Photo of ${what}`,
};

export type ChildWords = typeof en;
