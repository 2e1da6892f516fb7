/**
 * Entries folded to stock, kept up to date as lines come: only lots a line touched are worked out again. What depends on
 * the day is worked out anew when the day turns.
 */
import {
  describe_lots,
  fold_all,
  fold_on,
  lot_at,
  lot_ids,
  lot_without_past,
  type Folded,
} from '../../storekeeping/fold';
import type { FoldState, Line, LotRecord, LotState, Setting } from '../../storekeeping/state';
import { by_id, changed } from './by_id';
import { Whole } from './whole';

/** What was folded, and the day it is asked for: replaced with every change, so that what hangs on it is asked again. */
interface Asked {
  readonly folded: Folded;
  readonly today: string;
}

const NO_LOTS: ReadonlyMap<string, LotState> = by_id([], String);

export class Stock {
  #lots = $state.raw(NO_LOTS);
  #asked = $state.raw<Asked | undefined>();
  readonly #whole = $derived(this.#asked && new Whole(this.#asked.folded, this.#asked.today, this.#lots));

  /** Every lot that stands, by id, in order of birth; finished ones too. */
  get lots(): ReadonlyMap<string, LotState> {
    return this.#lots;
  }

  /** Tallies, chores, claims and facts of the whole household; each worked out when first asked for after a change. */
  get whole(): FoldState | undefined {
    return this.#whole;
  }

  /** Lots of an earlier fold, until all lines are folded. */
  show(lots: readonly LotState[]): void {
    this.#asked = undefined;
    this.#lots = by_id(lots, (lot) => lot.id);
  }

  /** One lot as of that day, without its history; none before lines were folded. */
  without_history(id: string, day: string): LotState | undefined {
    const lot = this.#asked && lot_without_past(this.#asked.folded, id, day);
    const { first_photo = null, last_photo = null } = this.#lots.get(id) ?? {};
    return lot && { ...lot, first_photo, last_photo };
  }

  all(lines: Iterable<Line>, setting: Setting, today: string): void {
    this.#reread({ folded: fold_all(lines, setting), today });
  }

  add(lines: readonly Line[]): void {
    if (!this.#asked) return;
    const { folded, today } = this.#asked;
    const touched = lines.flatMap((line) => [...fold_on(folded, line)]);
    this.#lots = changed(
      this.#lots,
      touched.map((id) => [id, lot_at(folded, id, today)] as const),
    );
    this.#asked = { folded, today };
  }

  describe(lots: Readonly<Record<string, LotRecord>>): void {
    if (!this.#asked) return;
    describe_lots(this.#asked.folded, lots);
    this.#reread({ ...this.#asked });
  }

  turn_to(today: string): void {
    if (this.#asked && this.#asked.today !== today) this.#reread({ folded: this.#asked.folded, today });
  }

  #reread(asked: Asked): void {
    const lots = lot_ids(asked.folded).map((id) => lot_at(asked.folded, id, asked.today));
    this.#lots = by_id(
      lots.filter((lot) => lot !== undefined),
      (lot) => lot.id,
    );
    this.#asked = asked;
  }

  clear(): void {
    this.#asked = undefined;
    this.#lots = NO_LOTS;
  }
}
