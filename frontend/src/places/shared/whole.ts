/** What the fold knows of the whole household, each part worked out when a screen first asks for it: one asks for few. */
import {
  chores_done_of,
  claims_of,
  facts_of,
  offers_of,
  open_chores_of,
  state_at,
  went_of_all,
  type Folded,
} from '../../storekeeping/fold';
import type { FoldState, LotState } from '../../storekeeping/state';

/** Good until the next entry is folded; then another is made. */
export class Whole implements FoldState {
  readonly #folded: Folded;
  readonly #today: string;
  readonly #lots: ReadonlyMap<string, LotState>;
  readonly #told: Partial<FoldState> = {};

  constructor(folded: Folded, today: string, lots: ReadonlyMap<string, LotState>) {
    this.#folded = folded;
    this.#today = today;
    this.#lots = lots;
  }

  get lots(): FoldState['lots'] {
    return (this.#told.lots ??= Object.fromEntries(this.#lots));
  }
  get went(): FoldState['went'] {
    return (this.#told.went ??= went_of_all(this.#folded));
  }
  get accidents(): FoldState['accidents'] {
    return (this.#told.accidents ??= this.went.filter((row) => row.accident));
  }
  get chores(): FoldState['chores'] {
    return (this.#told.chores ??= open_chores_of(this.#folded));
  }
  get chores_done(): FoldState['chores_done'] {
    return (this.#told.chores_done ??= chores_done_of(this.#folded));
  }
  get claims(): FoldState['claims'] {
    return (this.#told.claims ??= claims_of(this.#folded));
  }
  get offers(): FoldState['offers'] {
    return (this.#told.offers ??= offers_of(this.#folded));
  }
  get facts(): FoldState['facts'] {
    return (this.#told.facts ??= facts_of(this.#folded));
  }
  get past(): FoldState['past'] {
    return (this.#told.past ??= state_at(this.#folded, this.#today).past);
  }
}
