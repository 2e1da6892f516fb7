/** Entries to be kept together, each with the body of its kind: `house.record_all([entry_of('cull', body), ...])`. */
import type { Body, NewEntry } from '../../ledger';
import type { BodyOf, Kind } from '../../storekeeping/shapes';

export const entry_of = <K extends Kind>(
  kind: K,
  body: BodyOf<K>,
  more: Omit<NewEntry, 'kind' | 'body'> = {},
): NewEntry => ({ ...more, kind, body: body as unknown as Body });
