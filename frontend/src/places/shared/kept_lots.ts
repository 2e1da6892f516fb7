/**
 * Lots as they were folded last, shown at a start until all lines are read and folded anew. Kept for this day and the
 * next, without their histories, under a mark of the lines, the rules' version and all else the fold stands on: where
 * any of them is another, nothing is shown that was kept.
 */
import type { Ledger, Mark } from '../../ledger';
import type { LotState, Setting } from '../../storekeeping/state';

/** A hash of the rules as they were built. */
declare const __RULES__: string;

/** Nothing has changed for so long: then it is kept. */
const QUIET_MS = 3_000;

type LotsByDay = Readonly<Record<string, readonly LotState[]>>;

export interface Told {
  /** Lines that were folded. */
  readonly lines: number;
  readonly setting: Setting;
  readonly today: string;
  lots_on(day: string): readonly LotState[];
}

/** Words of lots are in the setting too. */
const stamp = (setting: Setting, rules: string): string => JSON.stringify([rules, setting]);

export const day_after = (day: string): string =>
  new Date(Date.parse(`${day}T12:00:00Z`) + 86_400_000).toISOString().slice(0, 10);

const without_history = (lots: readonly LotState[]): readonly LotState[] =>
  lots.map((lot) => ({ ...lot, history: [] }));

/** Undefined where the household was left in the meantime. */
async function mark_now(ledger: Ledger): Promise<Mark | undefined> {
  try {
    return await ledger.mark();
  } catch {
    return undefined;
  }
}

export class KeptLots {
  readonly #rules: string;
  #waiting: ReturnType<typeof setTimeout> | undefined;

  constructor(rules = __RULES__) {
    this.#rules = rules;
  }

  async read(ledger: Ledger, setting: Setting, today: string): Promise<readonly LotState[] | undefined> {
    const text = await ledger.worked_out(stamp(setting, this.#rules));
    return text === undefined ? undefined : (JSON.parse(text) as LotsByDay)[today];
  }

  /** After lines were folded. A change in another window that was not heard yet puts the mark out. */
  async soon(ledger: Ledger, told: () => Told): Promise<void> {
    const mark = await mark_now(ledger);
    this.forget();
    if (mark) this.#waiting = setTimeout(() => void this.#keep(ledger, mark, told()), QUIET_MS);
  }

  async #keep(ledger: Ledger, mark: Mark, { lines, setting, today, lots_on }: Told): Promise<void> {
    if (lines !== mark.lines) return;
    const days = [today, day_after(today)];
    const lots = Object.fromEntries(days.map((day) => [day, without_history(lots_on(day))]));
    try {
      await ledger.keep_worked_out(mark, stamp(setting, this.#rules), JSON.stringify(lots));
    } catch {
      // Full or closed: the next start folds all lines.
    }
  }

  /** What was to be kept no longer holds. */
  forget(): void {
    clearTimeout(this.#waiting);
  }
}
