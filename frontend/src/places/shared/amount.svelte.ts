/** An amount being set: by weight, as the crop is counted, or by pieces; in the household's units. */
import type { AmountBody } from '../../storekeeping/shapes';
import { figures } from '../../words';
import { amount_words } from './lot_words';
import { house } from './house.svelte';

export type By = 'grams' | 'pieces';

/** How a crop's amounts are told: kilograms or pieces. */
export const told_by = (crop: string): By =>
  house.own.figures[crop]?.count_unit === 'kg' ? 'grams' : 'pieces';

export class AmountForm {
  by = $state<By>('grams');
  /** In the unit shown, or pieces. */
  shown = $state(0);
  guessed = $state(false);
  touched = $state(false);
  /** The weight a vessel is known to hold when full [g]; weighed no more once a hand sets another number. */
  vessel = $state<number | undefined>();

  constructor(by: By = 'grams', shown = 0) {
    this.by = by;
    this.shown = shown;
  }

  /** The number with its vessel taken off. */
  #net = $state<number | undefined>();
  readonly #by_vessel = $derived(this.vessel !== undefined && figures().weigh(this.vessel) === this.shown);
  readonly body: AmountBody = $derived(
    this.by === 'grams'
      ? {
          grams: figures().grams(this.shown),
          measured: this.#by_vessel ? 'vessel' : this.guessed ? 'guessed' : 'weighed',
        }
      : { pieces: this.shown, ...(this.guessed ? { measured: 'guessed' as const } : {}) },
  );
  readonly unit = $derived(this.by === 'grams' ? figures().weight_unit : undefined);
  readonly step = $derived(this.by === 'grams' ? figures().weight_step : 1);

  words(crop: string): string {
    return amount_words(crop, this.body) ?? '';
  }
  /** A full crate or basket whose weight is known. */
  fill(grams: number): void {
    this.by = 'grams';
    this.shown = figures().weigh(grams);
    this.vessel = grams;
    this.touched = true;
  }
  /** Weighed in a vessel, which is still in the number, and heavier than it is empty. */
  outweighs(empty_g: number): boolean {
    const weighed = this.by === 'grams' && this.touched && !this.#by_vessel && this.shown !== this.#net;
    return weighed && figures().grams(this.shown) > empty_g;
  }
  /** What was weighed, less the empty vessel. */
  less(empty_g: number): void {
    this.shown = this.#net = figures().weigh(figures().grams(this.shown) - empty_g);
  }
  turn(): void {
    this.by = this.by === 'grams' ? 'pieces' : 'grams';
    this.shown = 0;
    this.touched = false;
  }
}
