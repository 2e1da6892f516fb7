/** Crates and baskets whose weight when full is known. Reactive: reads `house`. */
import type { Id } from '../../ledger';
import { house } from '../shared/house.svelte';
import { numeric, text } from '../shared/records';

export interface Vessel {
  readonly id: Id;
  readonly name: string;
  readonly grams: number;
}

export const vessels = (): readonly Vessel[] =>
  house.records.flatMap(({ type, id, values }) => {
    const grams = numeric(values['grams']);
    return type !== 'vessel' || values['archived'] === true || !grams
      ? []
      : [{ id, name: text(values['name']), grams }];
  });
