/** One touch: "I can't today" gives a chore or walk away, "I do it" takes it on. */
import { words as shell } from '../../words';
import { chores_words } from '../../words/chores';
import { house } from '../shared/house.svelte';
import { just } from './just.svelte';

/** '' when kept, else the sentence that says why not. */
async function keep(kind: 'offer' | 'claim', key: string, text: string): Promise<string> {
  const id = house.ledger.mint_id();
  const kept = await house.record(kind, { chore: key }, { id });
  if (!kept.ok) return shell().troubles[kept.why];
  just.say(text, [id]);
  return '';
}

export const give_away = (key: string, title: string): Promise<string> =>
  keep('offer', key, chores_words().given_away(title));

export const take_on = (key: string, title: string): Promise<string> =>
  keep('claim', key, chores_words().taken(title));

/** Undo of what was just kept. */
export async function undo(): Promise<void> {
  const entries = just.kept?.entries ?? [];
  await house.record_all(entries.map((strikes) => ({ kind: 'strike', body: {}, strikes })));
  just.kept = undefined;
}
