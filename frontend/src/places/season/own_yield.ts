/** The household's own yields and weekly uses, as records. Reactive: it reads `house`. */
import type { RecordNow } from '../../ledger';
import { house } from '../shared/house.svelte';
import { numeric, text } from '../shared/records';
import type { Unit } from './planting';

export const COLUMN = { plant: 'yield_kg_per_plant', metre: 'yield_kg_per_m' } as const;

const in_use = (record: RecordNow): boolean => record.values['archived'] !== true;

export const yield_record = (crop: string, unit: Unit): RecordNow | undefined =>
  house.records.find(
    (record) =>
      record.type === 'figure' &&
      in_use(record) &&
      text(record.values['table']) === 'planting' &&
      text(record.values['key']) === crop &&
      text(record.values['column']) === COLUMN[unit],
  );

/** In kg. */
export const own_yield = (crop: string, unit: Unit): number | undefined =>
  numeric(yield_record(crop, unit)?.values['value']);

export const use_record = (crop: string): RecordNow | undefined =>
  house.records.find(
    (record) => record.type === 'weekly_use' && in_use(record) && text(record.values['crop']) === crop,
  );

/** Grams a week; undefined where nobody told it by weight. */
export const told_grams = (crop: string): number | undefined => numeric(use_record(crop)?.values['grams']);
