/** What was just kept, told on the page one comes back to, with its undo; gone at the next act. */
import type { Id } from '../../ledger';
import { announce } from '../../look/announce.svelte';

interface JustKept {
  readonly text: string;
  readonly entries: readonly Id[];
}

class Just {
  kept = $state.raw<JustKept | undefined>();

  say(text: string, entries: readonly Id[]): void {
    this.kept = { text, entries };
    announce(text);
  }
}

export const just = new Just();
