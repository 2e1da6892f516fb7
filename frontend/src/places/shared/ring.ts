/** Whom to ring when something is wrong, as the household wrote it down. */
import { house } from './house.svelte';
import { text } from './records';

export interface RingUp {
  /** vet, neighbour, ... in the household's words. */
  readonly what: string;
  readonly name: string;
  readonly number: string;
}

export function ring_list(): readonly RingUp[] {
  const list = house.household?.values['ring'];
  if (!Array.isArray(list)) return [];
  return list.map((one: Record<string, string>) => ({
    what: text(one['what']),
    name: text(one['name']),
    number: text(one['number']),
  }));
}

export const tel = (number: string): string => `tel:${number.replaceAll(/[^0-9+]/g, '')}`;
