/**
 * What a QR code of ours holds, and which lot is meant. A label holds the address of its code, as any phone's camera opens it:
 *
 *     https://store.example/#/code/UH-412        a lot, or a blank label that is on no lot yet
 *     https://store.example/#/join/K7MP3XQ2      the pairing code of a household
 *
 * Read inside the app only what stands after `#/` counts, so that labels outlive the address they were printed under.
 */

export const lot_href = (id: string): string => `#/store/lot/${id}`;
export const code_path = (code: string): string => `/code/${encodeURIComponent(code)}`;
export const code_address = (origin: string, code: string): string => `${origin}/#${code_path(code)}`;
export const join_address = (origin: string, code: string): string =>
  `${origin}/#/join/${encodeURIComponent(code)}`;

export type Read = { readonly lot: string } | { readonly join: string };

/** A bare code somebody else's printer put into a QR code: short, one word. */
const BARE = /^[\p{L}\p{N}][\p{L}\p{N}./-]{0,39}$/u;

/** undefined: none of ours. */
export function read_code(text: string): Read | undefined {
  const found = /#\/(code|join)\/([^/?#]{1,120})$/.exec(text.trim());
  const [, which, encoded] = found ?? [];
  if (which !== undefined && encoded !== undefined) {
    const code = decoded(encoded);
    if (code === undefined) return undefined;
    return which === 'join' ? { join: code } : { lot: code };
  }
  return BARE.test(text.trim()) ? { lot: text.trim() } : undefined;
}

function decoded(encoded: string): string | undefined {
  try {
    return decodeURIComponent(encoded).trim() || undefined;
  } catch {
    return undefined;
  }
}

const tidy = (code: string): string => code.toLocaleLowerCase('en').replaceAll(/[^\p{L}\p{N}]/gu, '');
const bare_number = (code: string): string | undefined => /^0*(\d+)$/.exec(code.trim())?.[1];

/** The number a code of this household ends in: "UH-0412" is 412 where codes begin with "UH-". */
export function number_in(code: string, prefix: string): number | undefined {
  const small = tidy(code);
  const head = tidy(prefix);
  const digits = small.startsWith(head) ? bare_number(small.slice(head.length)) : bare_number(code);
  return digits === undefined ? undefined : Number(digits);
}

interface Coded {
  readonly code: string | null;
  readonly finished: boolean;
}

/**
 * Lots that bear the code, spelled as it may be: small letters, without the dash, its number alone. Those that stand
 * hide those that are gone; more than one where two phones gave one number.
 */
export function lots_of_code<L extends Coded>(
  lots: readonly L[],
  code: string,
  prefix: string,
): readonly L[] {
  const number = number_in(code, prefix);
  const same = (lot: L): boolean => {
    if (lot.code === null) return false;
    if (tidy(lot.code) === tidy(code)) return true;
    return number !== undefined && number_in(lot.code, prefix) === number;
  };
  const all = lots.filter(same);
  const standing = all.filter((lot) => !lot.finished);
  return standing.length > 0 ? standing : all;
}
