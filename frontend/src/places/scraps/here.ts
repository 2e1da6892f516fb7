/** What the scraps' pages ask of the household, in one place. Reactive: they read `house`. */
import type { Body, Id } from '../../ledger';
import type { Measured } from '../../storekeeping/diet';
import { was_hot, type HeapValues } from '../../storekeeping/heap';
import { is_bird } from '../../storekeeping/law';
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { numeric, text } from '../shared/records';
import { heaps_of, is_heap_work } from '../shared/heaps';
import { heap_now, type HeapNow } from './heaps';
import { is_barred, pail_of, type Pail } from '../shared/pails';

const MEASURED: readonly string[] = ['weighed', 'vessel', 'guessed'];

/** How an entry's weights are known; what does not say so was weighed. */
export function measured_of(entry: Id): Measured | undefined {
  const told = house.lines.get(entry)?.written.body['measured'];
  return typeof told === 'string' && MEASURED.includes(told) ? (told as Measured) : undefined;
}

/** The pail of every group kept, by its id. */
export function pails_here(): ReadonlyMap<Id, Pail> {
  const told = {
    went: house.whole?.went ?? [],
    facts: house.whole?.facts ?? [],
    chores_done: house.whole?.chores_done ?? {},
  };
  const barred = (values: Body): boolean => is_barred(values, house.household?.values ?? {}, house.today);
  return new Map(house.animals.map(({ id, values }) => [id, pail_of(id, told, house.today, barred(values))]));
}

/** A small child who writes on this phone stays away from birds while disease is near: the server refuses it as well. */
export const kept_away = (kind: string): boolean =>
  is_bird(kind) && house.household?.values['outbreak'] === true && house.writer?.role === 'child';

/** Every heap in use as it stands. */
export function heaps_here(values: HeapValues): readonly HeapNow[] {
  const heaps = heaps_of(house.records);
  const [went, facts] = [house.whole?.went ?? [], house.whole?.facts ?? []];
  const told = { heaps, went, facts, crop: table_crop, today: house.today, rules: house.reference.rules };
  return heaps.map((heap) => heap_now(heap, told, values));
}

export interface Bucket {
  readonly id: Id;
  readonly name: string;
  /** What it holds when full [g]. */
  readonly grams: number;
}

/** Buckets the household has weighed; a vessel made before there were kinds may be one. */
export const buckets_here = (): readonly Bucket[] =>
  house.records
    .filter(({ type, values }) => type === 'vessel' && values['archived'] !== true)
    .filter(({ values }) => values['kind'] === undefined || values['kind'] === 'bucket')
    .map(({ id, values }) => ({ id, name: text(values['name']), grams: numeric(values['grams']) ?? 0 }))
    .filter(({ grams }) => grams > 0);

export const bucket_of = (id: string): Bucket | undefined => buckets_here().find((one) => one.id === id);

/** Is the heap that is being filled one that was measured hot? */
export function hot_heap_fills(): boolean {
  const heap = heaps_of(house.records).find((one) => one.fills_until === undefined);
  const work = (house.whole?.facts ?? []).filter(is_heap_work).filter(({ body }) => body.heap === heap?.id);
  const warmths = work.flatMap(({ body, day }) =>
    body.temp_c === undefined ? [] : [{ day, temp_c: body.temp_c }],
  );
  return was_hot(
    warmths,
    work.filter(({ body }) => body.did === 'turned').map(({ day }) => day),
  );
}
