/** The roster sheets as a walk reads them (docs/sheets.md). A sheet of another shape, of a newer server, reads as none. Pure. */
import type { Id, Json, Sheet } from '../../ledger/index.ts';
import type { FoldState } from '../../storekeeping/state.ts';
import type { Roster } from './walk.ts';

type Fields = { readonly [name: string]: Json };

const isFields = (value: Json | undefined): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const rows = (value: Json | undefined): readonly Fields[] =>
  Array.isArray(value) ? value.filter(isFields) : [];
const text = (value: Json | undefined): string | undefined => (typeof value === 'string' ? value : undefined);

/** Days between looks by lot, and who walks which space next; whoever took the walk on has it. */
export function rosterOf(sheets: readonly Sheet[], claims: FoldState['claims']): Roster {
  const days: Record<Id, number> = {};
  const who: Record<Id, readonly Id[]> = {};
  for (const { kind, key, content } of sheets) {
    if (kind !== 'roster' || !isFields(content)) continue;
    const space = text(content['space']);
    for (const lot of rows(content['lots'])) {
      const id = text(lot['lot']);
      if (id !== undefined && typeof lot['days'] === 'number') days[id] = lot['days'];
    }
    const [walk] = rows(content['walks']);
    if (space === undefined || walk === undefined) continue;
    const person = claims[`${key}/${text(walk['day']) ?? ''}`]?.person ?? text(walk['who']);
    if (person !== undefined) who[space] = [person];
  }
  return { days, who };
}
