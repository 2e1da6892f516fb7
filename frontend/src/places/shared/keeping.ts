/** Forms of records: only what was changed is sent, so that two people's edits of different fields both stand. */
import type { Body, Hash, Id, Json } from '../../ledger';
import { announce } from '../../look/announce.svelte';
import { words } from '../../words';
import { household_words } from '../../words/household';
import { house } from './house.svelte';

/** The path's id of a record that is yet to be made. */
export const NEW = 'new';

const same = (a: Json | undefined, b: Json | undefined): boolean =>
  JSON.stringify(a ?? null) === JSON.stringify(b ?? null);

/** Fields of `after` that differ from `before`; what is empty and was never set is left out. */
export const changed_fields = (before: Body, after: Body): Body =>
  Object.fromEntries(Object.entries(after).filter(([name, value]) => !same(before[name], value)));

/** Keep a record, told as `name`; '' when kept, else the sentence that says why not. */
export async function keep_record(
  type: string,
  id: Id,
  before: Body,
  after: Body,
  name = String(after['name'] ?? ''),
  photos?: readonly Hash[],
): Promise<string> {
  const set = changed_fields(before, after);
  if (Object.keys(set).length > 0) {
    const record = id === NEW ? house.ledger.mint_id() : id;
    const kept = await house.edit(type, record, set, photos);
    if (!kept.ok) return words().troubles[kept.why];
  }
  announce(household_words().kept(name));
  return '';
}

/** The values of a record now, empty for a new one. */
export const values_of = (type: string, id: Id): Body =>
  house.records.find((record) => record.type === type && record.id === id)?.values ?? {};
