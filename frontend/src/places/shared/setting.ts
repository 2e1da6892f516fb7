/** What the fold stands on, read from the household's records and the reference tables. */
import type { Body, RecordNow } from '../../ledger';
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
