/**
 * A household's own figures and crops, laid beside the published ones. Twin: `homestead/reference/own.py`. An own figure
 * replaces a number where the project reckons with it; it never touches a rule.
 */

import type { LookingOver } from '../storekeeping/rules.ts';
import type { CropFigures } from '../storekeeping/state.ts';
import type { Reference } from './shapes.ts';

/** Fields of a `figure` record; the key's first part is the crop. */
export interface OwnFigure {
  readonly table: string;
  readonly key: string;
  readonly column: string;
  readonly value: number | null;
  readonly archived?: boolean;
}

/** A `crop` record: its id, and the crop of the table whose figures it borrows. */
export interface OwnCrop {
  readonly id: string;
  readonly like?: string | null;
  readonly count_unit?: string | null;
}

export interface OwnTables {
  readonly figures: Readonly<Record<string, CropFigures>>;
  readonly looking_over: Readonly<Record<string, LookingOver>>;
}

/** Columns of an own weighing or interval, and what they are in the fold and in due. */
const FOLD: Readonly<Record<string, 'piece_g' | 'refuse_pct'>> = {
  'piece_weights.piece_g': 'piece_g',
  'piece_weights.refuse_pct': 'refuse_pct',
};
const DUE: Readonly<Record<string, keyof LookingOver>> = {
  'looking_over.every_days': 'every_days',
  'looking_over.every_days_late': 'every_days_late',
  'looking_over.late_from_month': 'late_from_month',
};

/** Figures and intervals with the household's own before the table's. */
export function with_own(
  tables: Pick<Reference, 'rules' | 'figures'>,
  own_figures: Iterable<OwnFigure>,
  own_crops: Iterable<OwnCrop> = [],
): OwnTables {
  const figures: Record<string, CropFigures> = { ...tables.figures };
  const intervals: Record<string, Partial<LookingOver>> = { ...tables.rules.looking_over };
  for (const { id, like, count_unit } of own_crops) {
    figures[id] = { ...tables.figures[like ?? ''], ...(count_unit ? { count_unit } : {}) };
    const interval = tables.rules.looking_over[like ?? ''];
    if (interval) intervals[id] = interval;
  }
  for (const { table, key, column, value, archived } of own_figures) {
    if (value === null || archived) continue;
    const crop = key.split('/')[0] ?? '';
    const figure = FOLD[`${table}.${column}`];
    const days = DUE[`${table}.${column}`];
    if (figure) figures[crop] = { ...figures[crop], [figure]: value };
    if (days) intervals[crop] = { ...intervals[crop], [days]: value };
  }
  return { figures, looking_over: Object.fromEntries(Object.entries(intervals).filter(is_whole)) };
}

/** An interval that lacks a part is none: due then takes its own. */
function is_whole(entry: [string, Partial<LookingOver>]): entry is [string, LookingOver] {
  const { every_days, every_days_late, late_from_month } = entry[1];
  return every_days !== undefined && every_days_late !== undefined && late_from_month !== undefined;
}
