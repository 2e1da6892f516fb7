/** Reading what came over the wire: parsed and narrowed by shape, never cast. */

export type Json = null | boolean | number | string | readonly Json[] | JsonObject;
export type JsonObject = { readonly [name: string]: Json };

/** The value of a JSON text, or undefined where it is none (half a reply, a page of HTML). */
export function parse_json(text: string): Json | undefined {
  try {
    const value: Json = JSON.parse(text);
    return value;
  } catch {
    return undefined;
  }
}

export const is_list = (value: Json | undefined): value is readonly Json[] => Array.isArray(value);

export const is_object = (value: Json | undefined): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const is_text = (value: Json | undefined): value is string => typeof value === 'string';

/** A whole number from 0. */
export const is_count = (value: Json | undefined): value is number =>
  typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;

/** A whole number of either sign. */
export const is_whole = (value: Json | undefined): value is number =>
  typeof value === 'number' && Number.isSafeInteger(value);

export const is_text_list = (value: Json | undefined): value is readonly string[] =>
  is_list(value) && value.every(is_text);

/** The same value; the order of names says nothing. */
export function same_json(a: Json | undefined, b: Json | undefined): boolean {
  if (is_list(a) && is_list(b)) return a.length === b.length && a.every((one, at) => same_json(one, b[at]));
  if (!is_object(a) || !is_object(b)) return a === b;
  const names = Object.keys(a);
  return (
    names.length === Object.keys(b).length && names.every((name) => name in b && same_json(a[name], b[name]))
  );
}

/** Each element read, or undefined when one is not of the shape. */
export function read_all<T>(
  value: Json | undefined,
  read: (element: Json) => T | undefined,
): T[] | undefined {
  if (!is_list(value)) return undefined;
  const found: T[] = [];
  for (const element of value) {
    const one = read(element);
    if (one === undefined) return undefined;
    found.push(one);
  }
  return found;
}
