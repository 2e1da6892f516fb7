/** Seeded draws: the same seed, the same run. */

export class Dice {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** 32 random bits (mulberry32, public domain). */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return (t ^ (t >>> 14)) >>> 0;
  }

  /** 0 to n - 1. */
  below(n: number): number {
    return Math.floor((this.next() / 2 ** 32) * n);
  }

  chance(share: number): boolean {
    return this.next() < share * 2 ** 32;
  }

  pick<T>(list: readonly T[]): T | undefined {
    return list[this.below(list.length)];
  }

  /** One of the names, each as likely as its weight says. */
  weighted<N extends string>(weights: Readonly<Record<N, number>>): N {
    const names = Object.keys(weights) as N[];
    let left = this.below(names.reduce((sum, name) => sum + weights[name], 0));
    for (const name of names) {
      left -= weights[name];
      if (left < 0) return name;
    }
    throw new RangeError('nothing to choose from');
  }

  bytes(count: number): Uint8Array {
    return Uint8Array.from({ length: count }, () => this.below(256));
  }
}
