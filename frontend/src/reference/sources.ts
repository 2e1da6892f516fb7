/** Where rows are from: read from the table's own file of sources when somebody asks. */

import { load_sources, row_parts } from './built.ts';
import type { Source } from './shapes.ts';
import type { Row } from '../storekeeping/rules.ts';

/** The first source of a row; null where no table has it. */
export async function source_of(row: Row): Promise<Source | null> {
  return (await sources_of(row))[0] ?? null;
}

/** All sources of a row: several rows of a table may share a name, and then all of them speak. */
export async function sources_of(row: Row): Promise<readonly Source[]> {
  const [table, key] = row_parts(row);
  const found = await load_sources(table).catch(() => null);
  const rows = found?.rows[key.join('/')] ?? [];
  return rows.map(([number, evidence, notes]) => {
    const [source, where] = found?.sources[number] ?? ['', ''];
    return { row, source, where, evidence, notes };
  });
}
