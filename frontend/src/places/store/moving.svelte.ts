/** A lot being moved, whole or in part, or packed when it has cured. A part is a new lot with the id of its entry. */
import type { Line, NewEntry, Outcome } from '../../ledger';
import type { MoveBody } from '../../storekeeping/shapes';
import type { LotState } from '../../storekeeping/state';
import { AmountForm, told_by } from '../shared/amount.svelte';
import { beyond_book } from '../shared/amounts';
import { entry_of } from '../shared/entry';
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { all_for_seed } from '../shared/offer';
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
    return !this.whole && beyond_book(this.#lot, this.amount.body);
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
  /** The move, and what is told beside it. */
  keep(): Promise<Outcome<readonly Line[]>> {
    const id = house.ledger.mint_id();
    if (this.whole) return house.record_all([entry_of('move', this.body(), { id })]);
    const code = code_of(text(house.household?.values['code_prefix']));
    return house.record_all([entry_of('move', this.body(), { id, code }), ...this.#seed_too(id)]);
  }
  /** What is kept for seed stays behind (F15), so a part of what is nothing but seed is set aside anew. */
  #seed_too(part: string): readonly NewEntry[] {
    if (!all_for_seed(this.#lot)) return [];
    const treated = this.#lot.seed.treated ? { treated: true } : {};
    return [entry_of('set_aside', { lot: part, ...this.amount.body, ...treated })];
  }
}
