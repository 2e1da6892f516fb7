/** Compost heaps as screens show them, from their records, the work done on them and what went to compost. Pure. */
import {
  asks_for,
  balance_of,
  C_TO_N,
  MOISTURE,
  to_add_kg,
  turn_on,
  usable_from,
  was_hot,
  water_litres,
  type Balance,
  type HeapValues,
  type Load,
  type Warmth,
} from '../../storekeeping/heap';
import type { Rules } from '../../storekeeping/rules';
import type { HeapBody } from '../../storekeeping/shapes';
import { taken_in, type Taken } from '../../storekeeping/soil';
import type { Fact, Went } from '../../storekeeping/state';
import { is_heap_work, type Heap } from '../shared/heaps';

export type HeapLook = 'right' | 'wet_green' | 'wet' | 'green' | 'brown' | 'dry';

export interface HeapNow {
  readonly heap: Heap;
  readonly balance: Balance;
  /** Undefined where the tables know too little. */
  readonly look: HeapLook | undefined;
  readonly loads: readonly Load[];
  readonly work: readonly (Fact & { body: HeapBody })[];
  readonly warmths: readonly Warmth[];
  readonly turned: string | undefined;
  /** Undefined: it is ripe. */
  readonly turn_on: string | undefined;
  readonly hot: boolean;
  /** Undefined: something is still put on it. */
  readonly usable_from: string | undefined;
  /** Diseases that live on in soil that went on it. */
  readonly taken: readonly Taken[];
}

type Row = Pick<Went, 'way' | 'day' | 'grams' | 'crop' | 'findings'>;

/** What went to compost on the heap's days. Of two heaps that fill at once the one begun last takes it. */
export const on_heap = (row: Row, heap: Heap, heaps: readonly Heap[]): boolean =>
  row.way === 'compost' && heaps.find((one) => fills(one, row.day))?.id === heap.id;

const fills = (heap: Heap, day: string): boolean =>
  day >= heap.fills_from && (heap.fills_until === undefined || day <= heap.fills_until);

export function heap_now(
  heap: Heap,
  told: {
    readonly heaps: readonly Heap[];
    readonly went: readonly Row[];
    readonly facts: readonly Fact[];
    readonly crop: (crop: string) => string;
    readonly today: string;
    readonly rules: Pick<Rules, 'soil'>;
  },
  values: HeapValues,
): HeapNow {
  const work = told.facts.filter(is_heap_work).filter(({ body }) => body.heap === heap.id);
  const went = told.went.filter((row) => on_heap(row, heap, told.heaps));
  const of = (crop: string | null): string | null => (crop === null ? null : told.crop(crop));
  const scraps = went.filter((row) => row.grams !== null);
  const loads: readonly Load[] = [
    ...scraps.map(({ crop, grams }) => ({ of: of(crop), grams: grams ?? 0 })),
    ...work.flatMap(({ body }) =>
      body.did === 'added' ? [{ of: body.material ?? null, grams: body.grams ?? 0 }] : [],
    ),
  ];
  const days = (did: HeapBody['did']) => work.filter(({ body }) => body.did === did).map(({ day }) => day);
  const warmths = work.flatMap(({ body, day }) =>
    body.did === 'warmth' && body.temp_c !== undefined ? [{ day, temp_c: body.temp_c }] : [],
  );
  const balance = balance_of(loads, values);
  const turned = days('turned').at(-1);
  const hot = was_hot(warmths, days('turned'));
  const last = [...scraps.map(({ day }) => day), ...days('added')].sort().at(-1) ?? heap.fills_from;
  const ripe_on = heap.fills_until === undefined ? undefined : usable_from(last, hot);
  return {
    heap,
    balance,
    look: look_of(balance),
    loads,
    work,
    warmths,
    turned,
    turn_on: ripe_on !== undefined && ripe_on <= told.today ? undefined : turn_on(turned ?? heap.fills_from),
    hot,
    usable_from: ripe_on,
    taken: taken_in(
      told.rules,
      went.map(({ crop, findings, day }) => ({ crop: of(crop), findings, day })),
    ),
  };
}

function look_of(balance: Balance): HeapLook | undefined {
  const { c_to_n, moisture_pct } = balance;
  if (c_to_n === null || moisture_pct === null) return undefined;
  switch (asks_for(balance)) {
    case null:
      return 'right';
    case 'green':
      return 'brown';
    case 'water':
      return 'dry';
    case 'brown':
      if (moisture_pct <= MOISTURE[1]) return 'green';
      return c_to_n < C_TO_N[0] ? 'wet_green' : 'wet';
  }
}

/** Litres of an ordinary bucket. Common practice, no source. */
export const BUCKET_LITRES = 10;

/** Whole buckets of a material that put the heap right, at least one; undefined where it cannot. */
export function buckets_of(now: HeapNow, values: HeapValues, material: string): number | undefined {
  const density = values[material]?.density;
  const kg = to_add_kg(now.loads, values, material);
  if (!density || kg === null || kg <= 0) return undefined;
  return Math.max(1, Math.ceil((kg / density) * (1000 / BUCKET_LITRES)));
}

/** Grams in so many buckets of a material. */
export const grams_of_buckets = (
  values: HeapValues,
  material: string,
  buckets: number,
): number | undefined => {
  const density = values[material]?.density;
  return density ? Math.round(buckets * BUCKET_LITRES * density) : undefined;
};

export const water_for = (now: HeapNow): number => Math.ceil(water_litres(now.balance));
