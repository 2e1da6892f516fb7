/** What the phone remembers of labels: the sheet they are printed on, which were printed, and blank ones not on a lot yet. */
import { is_object, type Json, type JsonObject } from '../../../wire/json';
import { house } from '../../shared/house.svelte';
import { numeric, text, texts } from '../../shared/records';
import { FIRST, MOST, type SheetKind } from './label_sheet';

export interface KeptLabels {
  readonly sheet: SheetKind;
  /** Ids of lots. */
  readonly printed: readonly string[];
  /** Numbers set aside for blank labels. */
  readonly blank: readonly number[];
}

const DRAFT = 'labels';

const fields = (value: Json | undefined): JsonObject => (is_object(value) ? value : {});

const between = (value: Json | undefined, first: number, least: number, most: number): number =>
  Math.min(most, Math.max(least, numeric(value) ?? first));

const sheet_of = (told: JsonObject): SheetKind => ({
  paper: text(told['paper']) === 'letter' ? 'letter' : 'a4',
  columns: between(told['columns'], FIRST.columns, 1, MOST.columns),
  rows: between(told['rows'], FIRST.rows, 1, MOST.rows),
  top: between(told['top'], FIRST.top, 0, MOST.top),
  side: between(told['side'], FIRST.side, 0, MOST.side),
  used: between(told['used'], 0, 0, MOST.columns * MOST.rows),
});

/** A value of another shape, of a newer build, reads as never kept. */
export function kept_of(value: Json | undefined): KeptLabels {
  const told = fields(value);
  const blank = told['blank'];
  return {
    sheet: sheet_of(fields(told['sheet'])),
    printed: texts(told['printed']),
    blank: Array.isArray(blank) ? blank.filter((one): one is number => typeof one === 'number') : [],
  };
}

export const read_labels = async (): Promise<KeptLabels> =>
  kept_of((await house.ledger.drafts.get(DRAFT))?.value);

export const keep_labels = async (kept: KeptLabels): Promise<void> => {
  const { sheet, printed, blank } = kept;
  await house.ledger.drafts.put({
    id: DRAFT,
    kind: DRAFT,
    value: { sheet: { ...sheet }, printed: [...printed], blank: [...blank] },
  });
};
