/** The chores of a minder's days: of one day, and of the others each told once. Pure. */
import type { Chore, Week } from './document.ts';

export interface Series {
  readonly name: string;
  readonly at: string;
  readonly days: readonly string[];
}

/** By the hour. */
export const chores_on = (week: Week, day: string): readonly Chore[] =>
  week.chores.filter((chore) => chore.day === day).sort((a, b) => a.at.localeCompare(b.at));

/** After that day: a chore that comes every day is one row, by the hour. */
export function series_after(week: Week, day: string): readonly Series[] {
  const found = new Map<string, Series>();
  for (const { name, at, day: on } of week.chores) {
    if (on <= day) continue;
    const named = `${at} ${name}`;
    found.set(named, { name, at, days: [...(found.get(named)?.days ?? []), on] });
  }
  return [...found.values()].sort((a, b) => a.at.localeCompare(b.at) || a.name.localeCompare(b.name));
}
