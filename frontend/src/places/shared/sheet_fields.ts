/** Fields of a sheet's content, read with care: what is missing or of another shape reads as absent. Pure. */
import type { Json } from '../../ledger';

export type Fields = Readonly<Record<string, Json>>;
/** P10, P50, P90. */
export type Band = readonly [number, number, number];

export const fields = (value: Json | undefined): Fields | undefined =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : undefined;
export const rows = (value: Json | undefined): readonly Fields[] =>
  Array.isArray(value) ? value.map(fields).filter((one) => one !== undefined) : [];
export const text = (value: Json | undefined): string => (typeof value === 'string' ? value : '');
export const texts = (value: Json | undefined): readonly string[] =>
  Array.isArray(value) ? value.filter((one): one is string => typeof one === 'string') : [];
export const number_of = (value: Json | undefined): number | undefined =>
  typeof value === 'number' ? value : undefined;

export function band(value: Json | undefined): Band | undefined {
  if (!Array.isArray(value)) return undefined;
  const [low, middle, high] = value;
  return typeof low === 'number' && typeof middle === 'number' && typeof high === 'number'
    ? [low, middle, high]
    : undefined;
}
export const bands = (value: Json | undefined): readonly Band[] =>
  Array.isArray(value) ? value.flatMap((one) => [band(one)].filter((b) => b !== undefined)) : [];
