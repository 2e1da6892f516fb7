/** When a heap is to be turned, in words. Reactive: reads `house` and the words. */
import { figures } from '../../words';
import { scraps_words } from '../../words/scraps';
import { house } from '../shared/house.svelte';
import type { HeapNow } from './heaps';

export function turning({ turn_on }: HeapNow): string {
  const w = scraps_words().heap;
  if (turn_on === undefined) return w.ripe;
  return (turn_on <= house.today ? w.turn_due : w.turn_on)(figures().day(turn_on));
}
