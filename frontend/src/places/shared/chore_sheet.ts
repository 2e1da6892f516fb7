/** The chores' sheet as the phone reads it (docs/sheets.md). A sheet of another shape, of a newer server, reads as none. Pure. */
import type { Id, Sheet } from '../../ledger/index.ts';
import { fields, number_of, rows, text, texts, type Fields } from './sheet_fields.ts';

/** What the server asks of somebody. `who` had it when the sheet was made; claims and offers since count more. */
export interface AskedFor {
  readonly key: string;
  readonly what: string;
  readonly day: string;
  readonly latest: string;
  readonly who: Id | undefined;
  readonly minutes: number;
  readonly needs: readonly string[];
  readonly at: string;
  /** To be done today, before dark. */
  readonly tonight: boolean;
  readonly name: string;
  readonly space: Id | undefined;
}

/** Minutes in four weeks: what somebody can give, gave, and is asked for in the next 14 days. */
export interface Share {
  readonly person: Id;
  readonly can: number;
  readonly gave: number;
  readonly asked: number;
}

export interface ChoreSheet {
  readonly day: string;
  readonly asked: readonly AskedFor[];
  readonly people: readonly Share[];
}

const given = (told: string): string | undefined => (told === '' ? undefined : told);

const asked_of = (row: Fields): AskedFor => ({
  key: text(row['key']),
  what: text(row['what']),
  day: text(row['day']),
  latest: text(row['latest']),
  who: given(text(row['who'])),
  minutes: number_of(row['minutes']) ?? 0,
  needs: texts(row['needs']),
  at: text(row['at']),
  tonight: row['tonight'] === true,
  name: text(row['name']),
  space: given(text(row['space'])),
});

const share_of = (row: Fields): Share => ({
  person: text(row['person']),
  can: number_of(row['can']) ?? 0,
  gave: number_of(row['gave']) ?? 0,
  asked: number_of(row['asked']) ?? 0,
});

export const NO_CHORES: ChoreSheet = { day: '', asked: [], people: [] };

export function chore_sheet(sheets: readonly Sheet[]): ChoreSheet {
  const content = fields(sheets.find(({ kind }) => kind === 'chores')?.content);
  if (!content) return NO_CHORES;
  return {
    day: text(content['day']),
    asked: rows(content['chores'])
      .map(asked_of)
      .filter(({ key, day }) => key !== '' && day !== ''),
    people: rows(content['people'])
      .map(share_of)
      .filter(({ person }) => person !== ''),
  };
}
