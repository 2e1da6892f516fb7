/** What was put by: of which crops, and how. Read from the entry that began the lot, or the one it was moved from. */
import type { Line } from '../../ledger';
import type { Body } from '../../ledger';
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { rows, text } from '../shared/sheet_fields';
import { METHODS, type Method } from './yields';

export interface PutByOf {
  readonly method: Method | undefined;
  /** Crops of the tables. Empty: nobody told. */
  readonly crops: readonly string[];
}

/** Undefined: it was not put by here, it came as it is. */
export function put_by_of(lot: string): PutByOf | undefined {
  const written: Line['written'] | undefined = house.lines.get(lot)?.written;
  if (written?.kind === 'move') return put_by_of(text((written.body as Body)['lot']));
  if (written?.kind !== 'put_by') return undefined;
  const body = written.body as Body;
  const from = rows(body['from']).flatMap((one) => house.lot(text(one['lot'])) ?? []);
  return {
    method: METHODS.find((method) => method === body['method']),
    crops: [...new Set(from.map(({ crop }) => table_crop(crop)))],
  };
}
