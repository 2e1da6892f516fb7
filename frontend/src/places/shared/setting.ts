/** What the fold stands on, read from the household's records and the reference tables. */
import type { Body, RecordNow } from '../../ledger';
import type { OwnCrop, OwnFigure } from '../../reference';
import type { CropFigures, LotRecord, Setting } from '../../storekeeping/state';
import type { Manner } from '../../words';
import { numeric, text } from './records';

/** Fields of lots' records, by lot. */
export function lot_records(records: readonly RecordNow[]): Readonly<Record<string, LotRecord>> {
  const lots: Record<string, LotRecord> = {};
  for (const { type, id, values } of records) {
    if (type !== 'lot') continue;
    const winter = numeric(values['winter']);
    lots[id] = {
      ...(text(values['code']) && { code: text(values['code']) }),
      ...(text(values['variety']) && { variety: text(values['variety']) }),
      ...(text(values['label']) && { label: text(values['label']) }),
      ...(winter !== undefined && { winter }),
    };
  }
  return lots;
}

const FIGURE_VALUES = ['table', 'key', 'column'] as const;

/** The household's own figures and crops, as the tables take them. */
export function own_figures(records: readonly RecordNow[]): { figures: OwnFigure[]; crops: OwnCrop[] } {
  const figures = records.filter(({ type }) => type === 'figure');
  const crops = records.filter(({ type }) => type === 'crop');
  return {
    figures: figures.map(({ values }) => {
      const [table, key, column] = FIGURE_VALUES.map((name) => text(values[name]));
      return {
        table: table ?? '',
        key: key ?? '',
        column: column ?? '',
        value: numeric(values['value']) ?? null,
        archived: values['archived'] === true,
      };
    }),
    crops: crops.map(({ id, values }) => ({
      id,
      like: text(values['like']) || null,
      count_unit: text(values['count_unit']) || null,
    })),
  };
}

/** Whether all lots must be folded again: a figure, the zone or the side of the earth changed, not only a lot's words. */
export const folds_alike = (a: Setting, b: Setting): boolean =>
  JSON.stringify([a.zone, a.hemisphere, a.figures]) === JSON.stringify([b.zone, b.hemisphere, b.figures]);

export function setting_of(
  household: RecordNow | undefined,
  records: readonly RecordNow[],
  figures: Readonly<Record<string, CropFigures>>,
): Setting {
  const values = household?.values ?? {};
  return {
    zone: text(values['zone']) || Intl.DateTimeFormat().resolvedOptions().timeZone,
    hemisphere: values['hemisphere'] === 'south' ? 'south' : 'north',
    figures,
    lots: lot_records(records),
  };
}

const WEEK_STARTS: Readonly<Record<string, Manner['week_start']>> = { monday: 1, saturday: 6, sunday: 7 };

/** How figures read in this household: units, the first day of the week, the zone its days are counted in. */
export function manner_of(household: Body): Manner {
  const imperial = household['units'] === 'imperial';
  return {
    weight: imperial ? 'lb' : 'kg',
    temp: imperial ? 'F' : 'C',
    length: imperial ? 'in' : 'cm',
    week_start: WEEK_STARTS[text(household['week_start'])] ?? 1,
    zone: text(household['zone']) || undefined,
  };
}
