/** Compost heaps and when they want turning, for Scraps and for the chores. Pure. */
import type { Body, Id, RecordNow } from '../../ledger/index.ts';
import { turn_on, usable_from } from '../../storekeeping/heap.ts';
import type { HeapBody } from '../../storekeeping/shapes.ts';
import type { Fact } from '../../storekeeping/state.ts';

export interface Heap {
  readonly id: Id;
  readonly name: string;
  readonly fills_from: string;
  /** Undefined: it is being filled. */
  readonly fills_until: string | undefined;
}

export const is_heap_work = (fact: Fact): fact is Fact & { body: HeapBody } => fact.kind === 'heap';

const word = (values: Body, name: string): string | undefined =>
  typeof values[name] === 'string' ? values[name] : undefined;

/** Heaps in use, the one begun last first. */
export function heaps_of(records: readonly RecordNow[]): readonly Heap[] {
  return records
    .filter(({ type, values }) => type === 'heap' && values['archived'] !== true)
    .map(({ id, values }) => ({
      id,
      name: word(values, 'name') ?? '',
      fills_from: word(values, 'fills_from') ?? '',
      fills_until: word(values, 'fills_until'),
    }))
    .sort((a, b) => (b.fills_from < a.fills_from ? -1 : 1));
}

/** Heaps whose day to be turned has come; none once it is ripe. The key is the server's: `turn_heap/<heap>/<day>`. */
export function heaps_to_turn(
  records: readonly RecordNow[],
  facts: readonly Fact[],
  today: string,
): readonly { readonly heap: Heap; readonly day: string; readonly key: string }[] {
  return heaps_of(records).flatMap((heap) => {
    if (heap.fills_until !== undefined && usable_from(heap.fills_until, false) <= today) return [];
    const turned = facts
      .filter(is_heap_work)
      .filter(({ body }) => body.heap === heap.id && body.did === 'turned')
      .map(({ day }) => day)
      .sort()
      .at(-1);
    const day = turn_on(turned ?? heap.fills_from);
    return day <= today ? [{ heap, day, key: `turn_heap/${heap.id}/${day}` }] : [];
  });
}
