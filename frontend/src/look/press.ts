/** What a wet or gloved hand needs of a key: one press is one press, and a held stepper repeats. */

/** A second touch on the same key within this time is a bounce, in ms. */
export const BOUNCE_MS = 350;
export const HOLD_FIRST_MS = 420;
export const HOLD_NEXT_MS = 110;
export const HOLD_FAST_MS = 45;
/** From this repeat on the number runs. */
export const FAST_FROM = 8;

/**
 * Lets one call through and drops those that follow within BOUNCE_MS, or while the act is still going on: an impatient
 * second press asks the server nothing twice.
 */
export function once<Args extends unknown[]>(act: (...args: Args) => unknown, now = () => performance.now()) {
  let last = -Infinity;
  let going_on = false;
  return (...args: Args): void => {
    if (going_on || now() - last < BOUNCE_MS) return;
    last = now();
    const done = act(...args);
    if (!(done instanceof Promise)) return;
    going_on = true;
    void done.finally(() => (going_on = false));
  };
}

/** How long to wait before repeat number `nth` (1 is the first) of a held key, in ms. */
export const holdPause = (nth: number): number =>
  nth === 1 ? HOLD_FIRST_MS : nth < FAST_FROM ? HOLD_NEXT_MS : HOLD_FAST_MS;

/**
 * Press and hold on one key of a stepper: a touch acts when it is let go; held, it repeats.
 * `step` is told whether it was a single touch, so that the caller can announce only where it ended.
 */
export class Held {
  #timer: ReturnType<typeof setTimeout> | undefined;
  #repeats = 0;
  #lastRelease = -Infinity;
  #step: () => void;
  #now: () => number;

  constructor(step: () => void, now: () => number = () => performance.now()) {
    this.#step = step;
    this.#now = now;
  }

  down(): void {
    this.stop();
    if (this.#now() - this.#lastRelease < BOUNCE_MS) return;
    this.#repeats = 0;
    this.#wait();
  }

  #wait(): void {
    this.#timer = setTimeout(
      () => {
        this.#repeats += 1;
        this.#step();
        this.#wait();
      },
      holdPause(this.#repeats + 1),
    );
  }

  up(): void {
    if (this.#timer === undefined) return;
    this.stop();
    this.#lastRelease = this.#now();
    if (this.#repeats === 0) this.#step();
  }

  /** The finger slid off, or the key went away: nothing more happens. */
  stop(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
  }
}
