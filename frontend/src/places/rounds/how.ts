/** How a chore is done, from its record and the sheet. Pure. */
import type { Body, Id, RecordNow } from '../../ledger/index.ts';
import { numeric, text, texts } from '../shared/records.ts';
import type { ChoreSheet } from '../shared/chore_sheet.ts';

export interface How {
  readonly minutes: number | undefined;
  readonly at: string;
  readonly latest: string;
  readonly needs: readonly string[];
  readonly note: string;
  /** SHA-256; '' none. */
  readonly photo: string;
  readonly space: Id | undefined;
  readonly animals: Id | undefined;
}

const NOTHING: Body = {};
const given = (told: string): string | undefined => (told === '' ? undefined : told);

export function how_of(key: string, records: readonly RecordNow[], sheet: ChoreSheet): How {
  const named = records.find(({ type, id }) => type === 'chore' && key.startsWith(`${id}/`));
  const asked = sheet.asked.find((one) => one.key === key);
  const values = named?.values ?? NOTHING;
  return {
    minutes: numeric(values['minutes']) ?? asked?.minutes,
    at: text(values['at']) || (asked?.at ?? ''),
    latest: asked?.latest ?? '',
    needs: named ? texts(values['needs']) : (asked?.needs ?? []),
    note: text(values['note']),
    photo: text(values['photo']),
    space: given(text(values['space'])) ?? asked?.space,
    animals: given(text(values['animals'])),
  };
}
