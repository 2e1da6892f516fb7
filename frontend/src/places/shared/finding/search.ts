/**
 * Finding a lot by crop (in every language), variety, name, code, space, spot, pack or state: every word typed must be
 * somewhere in what it is called. A code typed whole, or its number, comes first.
 */

export interface Findable {
  readonly id: string;
  readonly words: string;
  /** Ways to type its code; '' among them finds nothing. */
  readonly codes: readonly string[];
}

/** Letters without marks, small: "Äpfel" and "apfel" find the same. */
export const plain = (text: string): string =>
  text.normalize('NFD').replace(/\p{M}/gu, '').toLocaleLowerCase().replaceAll('ß', 'ss');

/** A plural or the code's number alone find the same: "carrots", "UH-0412" and "412". */
function fits(word: string, called: string): boolean {
  if (called.includes(word)) return true;
  const short = word.replace(/(es|en|s|n)$/, '');
  return short.length > 2 && short !== word && called.includes(short);
}

/** "uh-0412", "uh0412" and "412". */
function ways_to_type(code: string): readonly string[] {
  const small = plain(code);
  const number = /(\d+)$/.exec(small)?.[1]?.replace(/^0+/, '') ?? '';
  return [...new Set([small, small.replaceAll(/[^\p{L}\p{N}]/gu, ''), number])];
}

export function findable(
  id: string,
  names: readonly (string | null | undefined)[],
  code?: string | null,
): Findable {
  const codes = code ? ways_to_type(code) : [];
  return { id, words: plain([...names, ...codes].filter(Boolean).join(' ')), codes };
}

/** 0 where a word is the whole code, 1 where a name begins with what was typed, else 2. */
function rank(row: Findable, wanted: readonly string[]): number {
  if (wanted.some((word) => row.codes.includes(word))) return 0;
  return row.words.startsWith(wanted.join(' ')) ? 1 : 2;
}

/** The best first; within a rank in the order given. */
export function find<T extends Findable>(rows: readonly T[], typed: string): readonly T[] {
  const wanted = plain(typed).split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return rows;
  return rows
    .filter((row) => wanted.every((word) => fits(word, row.words)))
    .map((row) => ({ row, at: rank(row, wanted) }))
    .sort((a, b) => a.at - b.at)
    .map(({ row }) => row);
}
