/**
 * When to exchange: on opening, when shown, when online again, soon after a save, at a tap, every minute while
 * visible; never while hidden. After a failure with growing pauses. One cycle at a time, a short one.
 */
import type { Ended } from './cycle.ts';
import type { Locks, Random, Timers } from './ports.ts';
import type { CycleEnd } from './shapes.ts';
import { pause_ms } from './waiting.ts';

const AFTER_SAVE_MS = 2_000;
/** A row of saves that does not end is sent in between: the first of it waits no longer than this. */
const LONGEST_ROW_MS = 10_000;
const EVERY_MS = 60_000;
const LONGEST_CYCLE_MS = 30_000;
/** A window that has something to send and got no lock for so long takes it: the holder may be frozen. */
const STEAL_AFTER_MS = 40_000;

export interface ExchangeDeps {
  readonly lock: string;
  readonly locks: Locks;
  readonly random: Random;
  readonly timers: Timers;
  readonly visible: () => boolean;
  readonly anything_to_send: () => Promise<boolean>;
  readonly cycle: (limits: { cut: () => boolean; signal: AbortSignal }) => Promise<Ended>;
}

export class Exchange {
  readonly #deps: ExchangeDeps;
  #failures = 0;
  #not_before = 0;
  #busy_since: number | undefined;
  #running: Promise<CycleEnd> | undefined;
  /** When the first save of a row came that no cycle has begun since. */
  #row_since: number | undefined;
  #again = false;
  #stopped = false;
  #let_go = new AbortController();
  #take_back: (() => void) | undefined;

  constructor(deps: ExchangeDeps) {
    this.#deps = deps;
  }

  /** Shown, online, a tap: pauses begin anew. */
  nudge(): Promise<CycleEnd> {
    this.#failures = 0;
    return this.run();
  }

  /** Soon after the last save, so that a row of saves makes one request; a cycle that runs may have passed it by. */
  saved(): void {
    if (this.#running !== undefined) this.#again = true;
    else if (this.#failures === 0) this.#plan(this.#after_row());
  }

  #after_row(): number {
    const now = this.#deps.timers.elapsed();
    this.#row_since ??= now;
    return Math.max(0, Math.min(AFTER_SAVE_MS, this.#row_since + LONGEST_ROW_MS - now));
  }

  /** The page is frozen or put away: let go of lock and request. */
  let_go(): void {
    this.#let_go.abort();
    this.#let_go = new AbortController();
  }

  stop(): void {
    this.#stopped = true;
    this.#take_back?.();
    this.let_go();
  }

  /** One cycle now, or the one that is running and one more after it. */
  run(): Promise<CycleEnd> {
    if (this.#running !== undefined) {
      this.#again = true;
      return this.#running;
    }
    this.#running = this.#run().finally(() => {
      this.#running = undefined;
    });
    return this.#running;
  }

  async #run(): Promise<CycleEnd> {
    if (this.#stopped || !this.#deps.visible()) return 'hidden';
    const wait = this.#not_before - this.#deps.timers.elapsed();
    if (wait > 0) return this.#come_back(wait, 'failed');
    this.#again = false;
    this.#row_since = undefined;
    try {
      const ended = await this.#alone();
      if (ended === 'busy') return this.#busy();
      this.#busy_since = undefined;
      return this.#settle(ended);
    } catch (error) {
      // A fault of ours is told, and must not end the exchange for good.
      this.#come_back(this.#pause(), 'failed');
      throw error;
    }
  }

  async #alone(): Promise<Ended | 'busy'> {
    const steal = await this.#may_steal();
    const let_go = this.#let_go.signal;
    return this.#deps.locks.alone(this.#deps.lock, steal, async (lost) => {
      let over = false;
      const take_back = this.#deps.timers.after(LONGEST_CYCLE_MS, () => {
        over = true;
      });
      try {
        const signal = AbortSignal.any([lost, let_go]);
        return await this.#deps.cycle({ cut: () => over || signal.aborted, signal });
      } finally {
        take_back();
      }
    });
  }

  async #may_steal(): Promise<boolean> {
    if (this.#busy_since === undefined) return false;
    const waited = this.#deps.timers.elapsed() - this.#busy_since;
    return waited >= STEAL_AFTER_MS && (await this.#deps.anything_to_send());
  }

  #busy(): CycleEnd {
    this.#busy_since ??= this.#deps.timers.elapsed();
    return this.#come_back(STEAL_AFTER_MS / 4, 'busy');
  }

  #settle(ended: Ended): CycleEnd {
    switch (ended.kind) {
      case 'done':
        this.#failures = 0;
        return this.#come_back(this.#again ? AFTER_SAVE_MS : EVERY_MS, 'done');
      case 'cut':
        return this.#come_back(0, 'done');
      case 'later':
        this.#not_before = this.#deps.timers.elapsed() + ended.ms;
        // All phones were told the same moment: do not come back as one.
        return this.#come_back(ended.ms + this.#pause(), 'failed');
      case 'failed':
        return this.#come_back(this.#pause(), 'failed');
      case 'halted':
        return this.#come_back(this.#pause(), 'halted');
    }
  }

  #pause(): number {
    const pause = pause_ms(this.#failures, this.#deps.random.share());
    this.#failures += 1;
    return pause;
  }

  #come_back<E extends CycleEnd>(ms: number, end: E): E {
    this.#plan(ms);
    return end;
  }

  /** In place of what was planned before. */
  #plan(ms: number): void {
    this.#take_back?.();
    if (this.#stopped) return;
    this.#take_back = this.#deps.timers.after(ms, () => void this.run());
  }
}
