/** Standing chores of one person today, the soonest first. Pure. */
import type { Id, RecordNow } from '../../ledger/index.ts';
import type { FoldState } from '../../storekeeping/state.ts';
import type { ChoreSheet } from './chore_sheet.ts';
import { standingOn, type StandingChore } from './standing.ts';
import { text } from './records.ts';
import { whose } from './whose.ts';

export interface OwnChore extends StandingChore {
  readonly animals: Id | undefined;
  /** How it is done: SHA-256; '' none. */
  readonly photo: string;
  readonly note: string;
}

interface Known {
  readonly sheet: ChoreSheet;
  readonly records: readonly RecordNow[];
  readonly whole: Pick<FoldState, 'claims' | 'offers' | 'chores_done'>;
  readonly today: string;
}

/** Nobody else's, and nothing that is nobody's: a small child is shown what is theirs. */
export function own_chores({ sheet, records, whole, today }: Known, person: Id): readonly OwnChore[] {
  const asked = new Map(sheet.asked.map(({ key, who }) => [key, who]));
  return standingOn(today, records)
    .filter(({ key, doer }) => whose(whole, key, asked.get(key) ?? doer) === person)
    .filter(({ key }) => whole.chores_done[key] === undefined)
    .map((chore) => {
      const values = records.find(
        ({ type, id }) => type === 'chore' && chore.key.startsWith(`${id}/`),
      )?.values;
      return {
        ...chore,
        animals: text(values?.['animals']) || undefined,
        photo: text(values?.['photo']),
        note: text(values?.['note']),
      };
    })
    .sort((a, b) => (a.at ?? '').localeCompare(b.at ?? ''));
}
