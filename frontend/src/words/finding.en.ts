/** The words for finding a lot, scanning a label, and printing labels. */
import { many } from './many';

const count = many('en-GB');

export const en = {
  title: 'Find a lot',
  field: 'Find by crop, name or number',
  short: 'Crop or number',
  scan: 'Scan',
  by_what: 'By crop, variety, number, space or state: “carrot”, “412”, “loft”, “soft rot”, “cures”.',
  found: (n: number) => count(n, { one: '1 lot found.', other: '# lots found.' }),
  found_none: (text: string) => `Nothing is called “${text}”.`,
  more: (n: number) => count(n, { one: 'Show 1 more', other: 'Show # more' }),
  eaten_up: 'Eaten to the end',
  states: { finished: 'eaten up, finished', curing: 'cures, curing', suspect: 'suspect', seed: 'for seed' },
  lens: {
    title: 'Scan a label',
    picture: 'What the camera sees',
    opening: 'The camera opens.',
    hold: 'Hold the code inside the corners.',
    by_itself: 'It opens by itself. Nothing is photographed or kept.',
    refused: 'The camera was not allowed. Type the number, or allow the camera in the phone’s settings.',
    none: 'There is no camera here. Type the number on the label.',
    number: 'Or its number',
    open: 'Open',
    lamp_on: 'Lamp on',
    lamp_off: 'Lamp off',
    not_ours: 'This code is not one of ours.',
    joins: 'This code joins a phone to a household. It is scanned under “Join one, with a code”.',
    nothing_typed: 'Type the number first.',
  },
  label: {
    several: (n: number) => count(n, { other: '# lots have this number. Which one is it?' }),
    unknown: (code: string) => `No lot here is called ${code}.`,
    unknown_why: 'It may be another household’s, or was written on a phone that has not sent yet.',
    blank: 'This label is on no lot yet.',
    blank_why: 'Put a crate away with it, or give it to a lot that is there already.',
    put_away: 'Put away with this label',
    give: 'Give it to a lot',
    which: 'Which lot?',
    this_one: 'This one',
    give_to: (lot: string) => `Give it to ${lot}`,
    given: (code: string) => `Kept: it is ${code} now.`,
    another: 'Scan another',
  },
  labels: {
    title: 'Print labels',
    which: 'Which',
    waiting: (n: number) => count(n, { one: '1 lot without a label', other: '# lots without a label' }),
    blank: 'Blank ones, for lots to come',
    blank_why:
      'Each bears a number of this phone. Hang it on a crate and scan it there: it is put away with that number.',
    how_many: 'How many more',
    set_aside: (n: number) => count(n, { one: 'Set 1 number aside', other: 'Set # numbers aside' }),
    fewer: (n: number) =>
      count(n, {
        one: 'This phone had 1 number left. More come when it has sent.',
        other: 'This phone had # numbers left. More come when it has sent.',
      }),
    too_small: 'So small, a phone can’t read the code. Fewer on a sheet.',
    none: 'No label to print.',
    on_sheets: (labels: number, sheets: number) =>
      `${count(labels, { one: '1 label', other: '# labels' })} on ${count(sheets, { one: '1 sheet', other: '# sheets' })}. The line is for pencil; cut on the dots.`,
    preview: 'As they come out',
    print: (n: number) => count(n, { one: 'Print 1 label', other: 'Print # labels' }),
    came_out: 'Did they come out well?',
    all_well: 'Yes, all of them',
    noted: 'Noted: printed.',
  },
  sheet: {
    title: (columns: number, rows: number) => `The sheet: ${columns} across, ${rows} down`,
    paper: 'Paper',
    papers: { a4: 'A4', letter: 'Letter' },
    columns: 'Across',
    rows: 'Down',
    top: 'Top margin',
    side: 'Side margin',
    used: 'Used up already',
  },
};

export type FindingWords = typeof en;
