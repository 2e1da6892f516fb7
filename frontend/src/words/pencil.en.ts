/** The words of rounds walked with paper and pencil. */
import { many } from './many';

const count = many('en-GB');

export const en = {
  title: 'On paper',
  lead: 'Print a sheet, walk it with a pencil, type it in afterwards in one go.',
  nothing: 'Nothing is put away yet.',
  print: 'Print the sheet',
  print_of: (space: string) => `Print the sheet of ${space}`,
  type: 'Type it in',
  type_of: (space: string) => `Type it in: ${space}`,
  sheet_of: (space: string) => `Sheet: ${space}`,
  how: 'Tick or write by each lot. A line with nothing on it stays due.',
  preview: 'As it comes out',
  print_sheets: (n: number) => count(n, { one: 'Print 1 sheet', other: 'Print # sheets' }),
  day: 'Day',
  who: 'Who',
  warmth: 'Warmth',
  damp: 'Damp',
  foot: 'Doubtful, wet or furry: set it apart and photograph it. Nothing is tasted to find out. Sheet',
  look_for: (findings: string) => (findings ? `Look for: ${findings}` : ''),
  sound: 'All sound',
  some: 'Some seen',
  not: 'Not looked at',
  looked: (n: number | undefined) => (n === undefined ? 'Looked at' : `Looked at (${n})`),
  out: 'Out',
  seen: 'What was seen',
  to: 'Where it went',
  typed_of: (space: string) => `Typed in: ${space}`,
  typed_how: 'As it stands on the paper. What was set apart as doubtful is photographed on a round.',
  day_walked: 'Day on the paper',
  keep: (n: number) => count(n, { one: 'Keep the round, 1 lot', other: 'Keep the round, # lots' }),
  kept: (n: number) => count(n, { one: 'Kept: 1 lot typed in.', other: 'Kept: # lots typed in.' }),
  nothing_typed: 'Mark one lot at least.',
};

export type PencilWords = typeof en;
