/** Maps that are replaced, never changed: a new map is what tells the screens. */
export const by_id = <T>(rows: Iterable<T>, id: (row: T) => string): ReadonlyMap<string, T> => {
  const map = new Map<string, T>();
  for (const row of rows) map.set(id(row), row);
  return map;
};

/** The map with these put in, or taken out where undefined. */
export function changed<T>(
  map: ReadonlyMap<string, T>,
  rows: Iterable<readonly [string, T | undefined]>,
): ReadonlyMap<string, T> {
  const next = new Map(map);
  for (const [id, row] of rows) {
    if (row === undefined) next.delete(id);
    else next.set(id, row);
  }
  return next;
}
