/** A lot being moved, whole or in part, or packed when it has cured. A part is a new lot with the id of its entry. */
import type { Line, Outcome } from '../../ledger';
import type { MoveBody } from '../../storekeeping/shapes';
import type { LotState } from '../../storekeeping/state';
import { AmountForm, told_by } from '../shared/amount.svelte';
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { text } from '../shared/records';
import { once_each } from './often';
import { code_of } from './putting.svelte';

export class Moving {
  whole = $state(true);
  space = $state('');
  /** undefined: it stays packed as it is. */
  pack = $state<string | undefined>();
  spot = $state('');
  amount = $state.raw(new AmountForm());
  readonly #lot: LotState;
  readonly packing: boolean;

  constructor(lot: LotState, packing: boolean) {
    this.#lot = lot;
    this.packing = packing;
    this.space = lot.space;
    this.spot = lot.spot ?? '';
    this.pack = packing ? this.packs[0] : undefined;
    this.amount = new AmountForm(packing ? lot.own_measure : told_by(lot.crop));
  }
  get packs(): readonly string[] {
    const fits = house.reference.packs_of(table_crop(this.#lot.crop));
    return once_each(fits.map(({ pack }) => pack))
      .filter((pack) => pack !== this.#lot.pack)
      .slice(0, 5);
  }
  /** Something would be written. */
  get changes(): boolean {
    const { space, spot } = this.#lot;
    return (
      !this.whole ||
      this.packing ||
      this.space !== space ||
      this.pack !== undefined ||
      this.spot.trim() !== (spot ?? '')
    );
  }
  get needs_number(): boolean {
    return (this.packing || !this.whole) && this.amount.shown <= 0;
  }
  get more_than_there(): boolean {
    const there = this.#lot.shown[this.amount.by];
    return !this.whole && there !== null && (this.amount.body[this.amount.by] ?? 0) > there + 0.5;
  }
  body(): MoveBody {
    const told = this.packing || !this.whole;
    return {
      lot: this.#lot.id,
      all: this.whole,
      space: this.space,
      ...(this.pack ? { pack: this.pack } : {}),
      ...(this.spot.trim() ? { spot: this.spot.trim() } : {}),
      ...(told ? this.amount.body : {}),
    };
  }
  keep(): Promise<Outcome<Line>> {
    if (this.whole) return house.record('move', this.body());
    const prefix = text(house.household?.values['code_prefix']);
    return house.record('move', this.body(), { code: code_of(prefix) });
  }
}
