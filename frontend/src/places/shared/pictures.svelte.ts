/** Photographs as addresses an `img` can show: read from the phone, else fetched, and let go when many others came. */
import { SvelteMap } from 'svelte/reactivity';
import type { Hash } from '../../ledger';
import { house } from './house.svelte';

export type PhotoSize = 'full' | 'thumbnail';
/** Undefined while it is looked for; null: not to be had now. */
export type Picture = string | null | undefined;

const HELD = 60;

class Pictures {
  readonly #held = new SvelteMap<string, string | null>();
  #looking: readonly string[] = [];

  /** Read in a template or a `$derived`: changes when the picture has come. */
  of(hash: Hash, size: PhotoSize = 'full'): Picture {
    const key = `${size} ${hash}`;
    const held = this.#held.get(key);
    if (held === undefined && !this.#looking.includes(key)) {
      this.#looking = [...this.#looking, key];
      void this.#look(key, hash, size);
    }
    return held;
  }

  async #look(key: string, hash: Hash, size: PhotoSize): Promise<void> {
    const photo = await house.ledger.photos.look(hash, size);
    this.#held.set(key, photo ? URL.createObjectURL(new Blob([photo.bytes], { type: photo.type })) : null);
    this.#looking = this.#looking.filter((other) => other !== key);
    this.#let_go();
  }

  /** Look again for those that were not to be had: the phone was heard from since. */
  again(): void {
    for (const [key, url] of this.#held) if (url === null) this.#held.delete(key);
  }

  #let_go(): void {
    for (const [key, url] of this.#held) {
      if (this.#held.size <= HELD) return;
      this.#held.delete(key);
      if (url) URL.revokeObjectURL(url);
    }
  }
}

export const pictures = new Pictures();
