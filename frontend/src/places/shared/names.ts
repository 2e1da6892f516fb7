/** What spaces, people and animals are called on screens. Lots and crops: lot_words.ts. Reactive: they read `house`. */
import { words } from '../../words';
import { house } from './house.svelte';
import { text } from './records';

/** The crop of the tables a crop is drawn and judged as: itself, or what an own crop is like. */
export function table_crop(crop: string): string {
  return house.likes.get(crop) ?? crop;
}

export const space_name = (id: string): string => house.space(id)?.name ?? '';
export const person_name = (id: string): string => house.person(id)?.name ?? words().writer.someone;
export const group_name = (id: string): string => house.group(id)?.name ?? words().steps.animals;

/** "Ana", or "you" where that person is the one writing. */
export const who = (id: string): string => (id === house.writer_id ? words().writer.you : person_name(id));

/** What a record that is named by its id in another one is called: a vessel, a space; '' where there is none. */
export const record_name = (id: string): string => {
  const named = house.records.find((record) => record.id === id);
  return text(named?.values['name']);
};
