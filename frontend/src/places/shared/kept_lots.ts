/**
 * Lots as they were folded last, shown at a start until all lines are read and folded anew. Kept for this day and the
 * next, without their histories, under a mark of the lines, the rules' version and all else the fold stands on: where
 * any of them is another, nothing is shown that was kept.
 */
import type { Ledger, Mark } from '../../ledger';
import type { LotState, Setting } from '../../storekeeping/state';
import { when_idle } from './when_idle';

/** A hash of the rules as they were built. */
declare const __RULES__: string;

/** Nothing has changed for so long: then it is kept. */
const QUIET_MS = 4_000;
/** What another window changed before the mark was taken is heard of by then. */
const HEARD_MS = 500;
/** Lots worked out between two moments in which a touch can be answered. */
const AT_A_TIME = 100;

type LotsByDay = Readonly<Record<string, readonly LotState[]>>;

export interface Told {
  /** Lines that were folded. */
  readonly lines: number;
  readonly setting: Setting;
  readonly today: string;
  readonly ids: readonly string[];
  /** Without its history. */
  lot_on(id: string, day: string): LotState | undefined;
}

/** Words of lots are in the setting too. */
const stamp = (setting: Setting, rules: string): string => JSON.stringify([rules, setting]);

export const day_after = (day: string): string =>
  new Date(Date.parse(`${day}T12:00:00Z`) + 86_400_000).toISOString().slice(0, 10);

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

  /** After lines were folded. A change heard of until it is kept begins the wait anew. */
  soon(ledger: Ledger, told: () => Told): void {
    this.forget();
    this.#waiting = setTimeout(() => void this.#mark(ledger, told), QUIET_MS);
  }

  async #mark(ledger: Ledger, told: () => Told): Promise<void> {
    const waiting = this.#waiting;
    const mark = await mark_now(ledger);
    if (mark === undefined || this.#waiting !== waiting) return;
    this.#waiting = setTimeout(() => void this.#keep(ledger, mark, told()), HEARD_MS);
  }

  async #keep(ledger: Ledger, mark: Mark, told: Told): Promise<void> {
    if (told.lines !== mark.lines) return;
    const waiting = this.#waiting;
    const lots: Record<string, LotState[]> = {};
    for (const day of [told.today, day_after(told.today)]) {
      const on_day: LotState[] = (lots[day] = []);
      for (let at = 0; at < told.ids.length; at += AT_A_TIME) {
        await when_idle();
        if (this.#waiting !== waiting) return;
        on_day.push(...told.ids.slice(at, at + AT_A_TIME).flatMap((id) => told.lot_on(id, day) ?? []));
      }
    }
    try {
      await ledger.keep_worked_out(mark, stamp(told.setting, this.#rules), JSON.stringify(lots));
    } catch {
      // Full or closed: the next start folds all lines.
    }
  }

  /** What was to be kept no longer holds. */
  forget(): void {
    clearTimeout(this.#waiting);
    this.#waiting = undefined;
  }
}
