/** What the table of preserving tells of a crop and a way: yield, blanching, containers, how long it keeps. Pure. */
import type { PreserveYield } from '../../reference/index.ts';
import type { Row, Rules } from '../../storekeeping/rules.ts';

export type Method = 'freeze' | 'dry' | 'ferment' | 'jar';
export const METHODS: readonly Method[] = ['freeze', 'dry', 'ferment', 'jar'];

const PROCESS: Readonly<Record<Method, string>> = {
  freeze: 'freeze',
  dry: 'dehydrate',
  ferment: 'ferment',
  jar: 'can',
};
/** What it becomes in the store, and what it is packed in. */
export const BECOMES = {
  freeze: { crop: 'frozen', pack: 'freezer_bag' },
  dry: { crop: 'dried', pack: 'jar' },
  ferment: { crop: 'ferment', pack: 'crock' },
  jar: { crop: 'jar', pack: 'jar' },
} as const;

export interface Told<T> {
  readonly value: T;
  readonly row: Row;
}

export interface WayTold {
  /** Kilograms of fresh produce that fill one container, low and high, and what it is. */
  readonly fresh_kg: Told<readonly [number, number]> | undefined;
  readonly unit: string;
  /** Kilograms dried of one fresh. */
  readonly dries_to: Told<number> | undefined;
  /** As the source says it: "3", "5 (hot pack simmer)". */
  readonly blanch: Told<string> | undefined;
  /** The shortest time it is said to keep. */
  readonly months: Told<number> | undefined;
}

/** A row's name, as its source is looked up. */
export const yield_row = ({ crop, process, form }: PreserveYield): Row =>
  `preserve_yields:${[crop, process, form].map((key) => key.replaceAll('/', '-')).join('/')}`;

const numbers = (text: string): readonly number[] =>
  [...text.matchAll(/\d+(?:\.\d+)?/g)].map(([digits]) => Number(digits));

/** Several crops go by one row of the table where they have none: fruit by any fruit, the rest by any vegetable. */
function names_of(rules: Rules, crop: string): readonly string[] {
  const kind = rules.crops[crop]?.kind;
  return [crop, kind === 'fruit' ? 'any_fruit' : 'any_vegetable', 'any_produce'];
}

/** The first row that has the figure, the crop's own before the rows for any. */
function first<T>(
  rows: readonly PreserveYield[],
  read: (row: PreserveYield) => T | undefined,
): Told<T> | undefined {
  for (const row of rows) {
    const value = read(row);
    if (value !== undefined) return { value, row: yield_row(row) };
  }
  return undefined;
}

export function way_told(
  table: readonly PreserveYield[],
  rules: Rules,
  crop: string,
  method: Method,
): WayTold {
  const of_way = table.filter(({ process }) => process === PROCESS[method]);
  const own = of_way.filter((row) => row.crop === crop);
  const all = names_of(rules, crop).flatMap((name) => of_way.filter((row) => row.crop === name));
  const whole = own.filter(({ form }) => !form.includes('in oil'));
  const jars =
    method === 'jar' ? table.filter(({ crop, process }) => crop === 'jar' && process === 'can') : [];
  const per_unit = whole.filter(({ unit }) => unit.startsWith('US '));
  return {
    fresh_kg: first(per_unit, ({ fresh_kg_per_unit }) => range(fresh_kg_per_unit)),
    unit: per_unit.find(({ fresh_kg_per_unit }) => fresh_kg_per_unit !== '')?.unit ?? '',
    dries_to: method === 'dry' ? lowest(whole, ({ yield_ratio }) => yield_ratio ?? undefined) : undefined,
    blanch: first(whole, ({ blanch_minutes }) => blanch_minutes || undefined),
    months: lowest([...own, ...jars].some(has_months) ? [...own, ...jars] : all, months_of),
  };
}

const has_months = (row: PreserveYield): boolean => months_of(row) !== undefined;
const months_of = ({ storage_months }: PreserveYield): number | undefined => {
  const found = numbers(storage_months);
  return found.length > 0 ? Math.min(...found) : undefined;
};

function range(text: string): readonly [number, number] | undefined {
  const [low, high = low] = numbers(text);
  return low === undefined || high === undefined ? undefined : [low, high];
}

/** Of several figures the lowest: the strictest holds. */
function lowest(
  rows: readonly PreserveYield[],
  read: (row: PreserveYield) => number | undefined,
): Told<number> | undefined {
  const told = rows.flatMap((row) => {
    const value = read(row);
    return value === undefined ? [] : [{ value, row: yield_row(row) }];
  });
  return told.sort((a, b) => a.value - b.value)[0];
}

/** How many containers that many grams fill: by the lowest weight that fills one, so that none is short. */
export function containers(grams: number, told: WayTold): number | undefined {
  const kg = told.fresh_kg?.value[0];
  return kg === undefined ? undefined : Math.max(1, Math.ceil(grams / 1000 / kg));
}
