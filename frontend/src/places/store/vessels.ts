/** Crates, baskets and jars whose weight is known, full or empty. Reactive: reads `house`. */
import type { Id, RecordNow } from '../../ledger';
import { store_words } from '../../words/store';
import { house } from '../shared/house.svelte';
import { numeric, text } from '../shared/records';

export const VESSEL_KINDS = ['crate', 'basket', 'tray', 'sack', 'jar', 'bucket', 'other'] as const;
export type VesselKind = (typeof VESSEL_KINDS)[number];

export interface Vessel {
  readonly id: Id;
  readonly name: string;
  /** One made before there were kinds has none, and may be any. */
  readonly kind: VesselKind | undefined;
  /** What it holds when full [g]; 0 where nobody knows. */
  readonly grams: number;
  /** What it weighs empty [g]; 0 where nobody knows. */
  readonly empty_g: number;
}

export const vessel_of = ({ id, values }: RecordNow): Vessel => ({
  id,
  name: text(values['name']),
  kind: VESSEL_KINDS.find((kind) => kind === values['kind']),
  grams: numeric(values['grams']) ?? 0,
  empty_g: numeric(values['empty_g']) ?? 0,
});

const in_use = (): readonly Vessel[] =>
  house.records.filter(({ type, values }) => type === 'vessel' && values['archived'] !== true).map(vessel_of);

/** All in use, buckets too. */
export const all_vessels = (): readonly Vessel[] => in_use();

/** Those that a lot may stand in: a bucket carries scraps. */
export const vessels = (): readonly Vessel[] => in_use().filter(({ kind }) => kind !== 'bucket');

/** "in the blue crate"; '' where the lot stands in none, or in one that is not here. */
export function vessel_name(id: string): string {
  const record = id ? house.records.find((one) => one.type === 'vessel' && one.id === id) : undefined;
  return record ? store_words().lot.in_vessel(vessel_of(record).name) : '';
}
