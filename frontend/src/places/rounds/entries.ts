/** Lines of the ledger read as entries of one kind. */
import type { Id, Line } from '../../ledger/index.ts';
import type { BodyOf, Kind } from '../../storekeeping/shapes.ts';

export type Lines = ReadonlyMap<Id, Line>;

type Bodies = { readonly [K in Kind]: BodyOf<K> };

/** The body, where the line is of that kind. */
export const bodyOf = <K extends Kind>(kind: K, line: Line | undefined): Bodies[K] | undefined =>
  line?.written.kind === kind ? (line.written.body as unknown as Bodies[K]) : undefined;
