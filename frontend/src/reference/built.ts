/** The files that `python -m homestead.reference.phone` writes, each fetched when it is asked for: JSON, not code. */

import type { ScrapValues } from '../storekeeping/diet.ts';
import type { HeapValues } from '../storekeeping/heap.ts';
import type { Rules } from '../storekeeping/rules.ts';
import type { CropFigures } from '../storekeeping/state.ts';
import type { Evidence, Language, Urgency } from './shapes.ts';

/** Texts by the parts of a row's key, one inside the other; '' where a row has none in that column. */
export interface Texts {
  readonly [key: string]: Texts | readonly string[] | string;
}

export interface FirstRows {
  readonly version: string;
  readonly crops: readonly string[];
  readonly in_hand: readonly string[];
  readonly packs: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly figures: Readonly<Record<string, CropFigures>>;
  /** By crop: fewest and most days it cures, and the rows of the tables that say so. */
  readonly cures: Readonly<Record<string, readonly [number, number, readonly string[]]>>;
  /** By crop and finding: urgency, and whether neighbours are at risk. */
  readonly look_fors: Readonly<
    Record<string, Readonly<Record<string, readonly [Urgency, 'yes' | 'no' | 'maybe']>>>
  >;
  /** Kind, does it spread, urgency. */
  readonly findings: Readonly<Record<string, readonly [string, boolean, Urgency]>>;
  /** All or a sample, least pieces, share in %, minutes for 10 kg. */
  readonly looking_over: Readonly<Record<string, readonly ['all' | 'sample', number | null, number, number]>>;
}

export interface Use {
  readonly crop: string;
  readonly part: string | null;
  /** States it may be in: findings of the ladder, `sound`. */
  readonly states: readonly string[];
  readonly kg: number;
}

/** A kind of dish for 4 people. */
export interface Dish {
  readonly id: string;
  readonly step: 'raw' | 'cook' | 'pot';
  readonly uses: readonly Use[];
  readonly minutes: number;
  readonly minutes_hands_on: number;
  readonly keeps_days: number;
  readonly freezes: boolean;
}

/** Figures as the source gives them: a number, a range, or several at as many temperatures. */
export interface PreserveYield {
  readonly crop: string;
  readonly process: string;
  readonly form: string;
  readonly fresh_kg_per_unit: string;
  readonly unit: string;
  readonly yield_ratio: number | null;
  readonly blanch_minutes: string;
  readonly storage_months: string;
  readonly storage_temp_c: string;
}

/** Days something keeps, and the row that says so. */
export type Clock = readonly [number, string];

/** How a crop wants to lie: low and high [°C], low and high humidity [%], and the row that says so. */
export type Keeping = readonly [number | null, number, number | null, number | null, string];

export interface KitchenRows {
  /** By crop (nuts, eggs, what was put by) and the condition it lies in: `in_shell_cool`, `fridge`. */
  readonly clocks: Readonly<Record<string, Readonly<Record<string, Clock>>>>;
  readonly keeping: Readonly<Record<string, Keeping>>;
  /** By topic of kitchen_safety. */
  readonly keeps_days: Readonly<Record<string, number>>;
  /** Crops that are not low in acid when jarred. */
  readonly jarred: Readonly<Record<string, 'acid' | 'acidified'>>;
  readonly dishes: readonly Dish[];
  readonly preserve_yields: readonly PreserveYield[];
  /** Animal, sort, quantity, condition, low, high, unit. */
  readonly animals: readonly (readonly [
    string,
    string,
    string,
    string,
    number | null,
    number | null,
    string,
  ])[];
  readonly scrap_values: ScrapValues;
  readonly heap_values: HeapValues;
  /** What is put on a heap by itself, browns first. */
  readonly heap_materials: readonly string[];
  /** Dry matter in %, crude protein in % of it. */
  readonly feed_values: Readonly<Record<string, readonly [string, string]>>;
}

export interface TableSources {
  /** Name and where. */
  readonly sources: readonly (readonly [string, string])[];
  /** By key, for each row that has it: number of the source, evidence, notes. */
  readonly rows: Readonly<Record<string, readonly (readonly [number, Evidence, string])[]>>;
}

/** Addresses of the files, hashed in a build; the service worker keeps them all. */
const addresses = import.meta.glob<string>('./built/**/*.json', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
});

const asked = new Map<string, Promise<unknown>>();

/** Each file once; one that could not be had is asked for again. */
function read<T>(name: string): Promise<T> {
  const known = asked.get(name) as Promise<T> | undefined;
  const answer = known ?? fetched<T>(name);
  if (!known) asked.set(name, answer);
  answer.catch(() => asked.delete(name));
  return answer;
}

async function fetched<T>(name: string): Promise<T> {
  const address = addresses[`./built/${name}.json`];
  if (address === undefined) throw new Error(`the tables were built without ${name}`);
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${name} of the tables: ${answer.status}`);
  return (await answer.json()) as T;
}

export const load_rules = (): Promise<Rules> => read('rules');
export const load_rows = (): Promise<FirstRows> => read('rows');
export const load_kitchen = (): Promise<KitchenRows> => read('kitchen_rows');
export const load_texts = (which: 'words' | 'kitchen_words', language: Language): Promise<Texts> =>
  read(`${which}.${language}`);
export const load_sources = (table: string): Promise<TableSources> => read(`sources/${table}`);

/** A row name's table and the parts of its key. */
export function row_parts(row: string): readonly [string, readonly string[]] {
  const colon = row.indexOf(':');
  return [row.slice(0, colon), row.slice(colon + 1).split('/')];
}

/** The text that stands in the n-th column of a row, '' where it has none. */
export const text_of = (texts: Texts, row: string, column: number): string =>
  texts_of(texts, row)[column] ?? '';

/** All texts of a row's name, in the order of its columns; of rows that share a name those of the next row after. */
export function texts_of(texts: Texts, row: string): readonly string[] {
  const [table, key] = row_parts(row);
  let inside: Texts[string] | undefined = texts[table];
  for (const part of key) inside = is_inside(inside) ? inside[part] : undefined;
  return Array.isArray(inside) ? (inside as readonly string[]) : [];
}

function is_inside(texts: Texts[string] | undefined): texts is Texts {
  return typeof texts === 'object' && !Array.isArray(texts);
}
