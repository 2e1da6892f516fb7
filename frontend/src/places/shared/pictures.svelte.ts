/** Photographs as addresses an `img` can show: read from the phone, else fetched, and let go when many others came. */
import { SvelteMap } from 'svelte/reactivity';
import type { Hash } from '../../ledger';
import { house } from './house.svelte';

export type PhotoSize = 'full' | 'thumbnail';
/** Undefined while it is looked for; null: not to be had now. */
export type Picture = string | null | undefined;

interface Held {
  readonly url: string | null;
  /** The last good pull when it was looked for: after a later one it may be had. */
  readonly pull: string | undefined;
}

const HELD = 60;

class Pictures {
  readonly #held = new SvelteMap<string, Held>();
  #looking: readonly string[] = [];

  /** Read in a template or a `$derived`: changes when the picture has come. */
  of(hash: Hash, size: PhotoSize = 'full'): Picture {
    const key = `${size} ${hash}`;
    const held = this.#held.get(key);
    const stale = held === undefined || (held.url === null && held.pull !== house.status.last_pull);
    if (stale && !this.#looking.includes(key)) {
      this.#looking = [...this.#looking, key];
      void this.#look(key, hash, size);
    }
    return held?.url;
  }

  async #look(key: string, hash: Hash, size: PhotoSize): Promise<void> {
    const pull = house.status.last_pull;
    const photo = await house.ledger.photos.look(hash, size);
    const url = photo ? URL.createObjectURL(new Blob([photo.bytes], { type: photo.type })) : null;
    this.#looking = this.#looking.filter((other) => other !== key);
    this.#held.set(key, { url, pull });
    this.#let_go();
  }

  #let_go(): void {
    for (const [key, { url }] of this.#held) {
      if (this.#held.size <= HELD) return;
      this.#held.delete(key);
      if (url) URL.revokeObjectURL(url);
    }
  }
}

export const pictures = new Pictures();
