/** Finding a lot by crop, variety, name, code, space or spot: every word typed must be somewhere in what it is called. */

export interface Findable {
  readonly id: string;
  readonly words: string;
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

export function findable(id: string, names: readonly (string | null | undefined)[]): Findable {
  return { id, words: plain(names.filter(Boolean).join(' ')) };
}

export function find<T extends Findable>(rows: readonly T[], typed: string): readonly T[] {
  const wanted = plain(typed).split(/\s+/).filter(Boolean);
  return wanted.length === 0 ? rows : rows.filter((row) => wanted.every((word) => fits(word, row.words)));
}
