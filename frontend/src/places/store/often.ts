/** Names by how often they occur, the commonest first; each once. */
export function commonest_first(names: readonly string[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts.keys()].sort((a, b) => (counts.get(b) ?? 0) - (counts.get(a) ?? 0));
}

export const once_each = (names: readonly string[]): readonly string[] => [...new Set(names)];
