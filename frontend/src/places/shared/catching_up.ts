/**
 * Pages of many lines that come one after the other, as on a first pull: the first is read at once, those that come
 * meanwhile together, with rests in which the pull goes on. Screens never take more than a tenth of its time.
 */
import { tick } from 'svelte';

/** Rest after each reading, in times of what it took with all that hangs on it. */
const REST = 9;

export class CatchingUp<T> {
  readonly #read: (rows: readonly T[]) => Promise<void>;
  #waiting = new Set<T>();
  #running: Promise<void> | undefined;

  constructor(read: (rows: readonly T[]) => Promise<void>) {
    this.#read = read;
  }

  /** Resolves when these, and what came meanwhile, are read. */
  add(rows: readonly T[]): Promise<void> {
    for (const row of rows) this.#waiting.add(row);
    this.#running ??= this.#run().finally(() => (this.#running = undefined));
    return this.#running;
  }

  async #run(): Promise<void> {
    while (this.#waiting.size > 0) {
      const rows = [...this.#waiting];
      this.#waiting = new Set();
      const began = performance.now();
      await this.#read(rows);
      await tick();
      await new Promise((rested) => setTimeout(rested, REST * (performance.now() - began)));
    }
  }
}
