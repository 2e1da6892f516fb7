/** A picture taken on the walk: made ready, and kept with the round's draft before anything else happens. */
import { capture } from '../../capture';
import type { Hash } from '../../ledger';
import { words } from '../../words';
import { rounds_words } from '../../words/rounds';
import { house } from '../shared/house.svelte';
import { draftId } from './draft';
import type { Walking } from './walking.svelte';

/** `full`: taken well, and the phone had no room for it. */
export type Shot =
  | { readonly ok: true; readonly hash: Hash }
  | { readonly ok: false; readonly why: string; readonly full?: boolean };

export async function photographed(walking: Walking, file: File): Promise<Shot> {
  const captured = await capture(file);
  if (!captured.ok) return { ok: false, why: rounds_words().walk.spoiled[captured.why] };
  const kept = await house.ledger.photos.keep(captured.photo, draftId(walking.walk.round));
  return kept.ok
    ? { ok: true, hash: kept.value }
    : { ok: false, why: words().troubles[kept.why], full: kept.why === 'store_full' };
}
