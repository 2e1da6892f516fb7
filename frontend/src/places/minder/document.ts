/** The one document of a minder's phone, kept in its own store for the days without signal. */
import { server, type Json } from '../../ledger';
import { is_object, parse_json, type JsonObject } from '../../wire/json';
import { read_problem } from '../../wire/problem';
import { house } from '../shared/house.svelte';
import { text, texts } from '../shared/records';

export interface Chore {
  readonly key: string;
  readonly day: string;
  readonly at: string;
  readonly name: string;
  readonly note: string;
  readonly animals: string;
  readonly needs: readonly string[];
  readonly cautions: readonly string[];
  /** How it is done: SHA-256; '' none. */
  readonly photo: string;
}
export interface Walk {
  readonly key: string;
  readonly day: string;
  readonly space: string;
  readonly minutes: number;
  readonly lots: readonly string[];
}
export interface Lot {
  readonly id: string;
  readonly crop: string;
  readonly variety: string;
  readonly code: string;
  readonly spot: string;
  readonly photo: string;
}
export interface Week {
  readonly household: string;
  readonly from: string;
  readonly until: string;
  readonly way: string;
  readonly note: string;
  readonly ring: readonly { readonly what: string; readonly name: string; readonly number: string }[];
  readonly animals: readonly { readonly id: string; readonly name: string; readonly number: number }[];
  readonly chores: readonly Chore[];
  readonly walks: readonly Walk[];
  readonly spaces: readonly {
    readonly id: string;
    readonly name: string;
    readonly cautions: readonly string[];
  }[];
  readonly lots: readonly Lot[];
  readonly home: readonly Lot[];
}

const DRAFT = 'minder_document';
const rows = (value: Json | undefined): readonly JsonObject[] =>
  Array.isArray(value) ? value.filter(is_object) : [];
const number = (value: Json | undefined): number => (typeof value === 'number' ? value : 0);

const lot_of = (row: JsonObject): Lot => ({
  id: text(row['id']),
  crop: text(row['crop']),
  variety: text(row['variety']),
  code: text(row['code']),
  spot: text(row['spot']),
  photo: text(row['photo']),
});

/** Read loosely: a field of a newer server is left out, a missing one is empty. */
export const week_of = (told: JsonObject): Week => ({
  household: text(told['household']),
  from: text(told['from']),
  until: text(told['until']),
  way: text(told['way']),
  note: text(told['note']),
  ring: rows(told['ring']).map((row) => ({
    what: text(row['what']),
    name: text(row['name']),
    number: text(row['number']),
  })),
  animals: rows(told['animals']).map((row) => ({
    id: text(row['id']),
    name: text(row['name']),
    number: number(row['number']),
  })),
  chores: rows(told['chores']).map((row) => ({
    key: text(row['key']),
    day: text(row['day']),
    at: text(row['at']),
    name: text(row['name']),
    note: text(row['note']),
    animals: text(row['animals']),
    needs: texts(row['needs']),
    cautions: texts(row['cautions']),
    photo: text(row['photo']),
  })),
  walks: rows(told['walks']).map((row) => ({
    key: text(row['key']),
    day: text(row['day']),
    space: text(row['space']),
    minutes: number(row['minutes']),
    lots: texts(row['lots']),
  })),
  spaces: rows(told['spaces']).map((row) => ({
    id: text(row['id']),
    name: text(row['name']),
    cautions: texts(row['cautions']),
  })),
  lots: rows(told['lots']).map(lot_of),
  home: rows(told['home']).map(lot_of),
});

/** What the phone holds. */
export async function kept_week(): Promise<Week | undefined> {
  const draft = await house.ledger.drafts.get(DRAFT);
  return is_object(draft?.value) ? week_of(draft.value) : undefined;
}

/** Ask for it anew; `ended`: it shows nothing any more, and what the phone held of it is gone. */
export async function fetch_week(): Promise<Week | 'ended' | undefined> {
  const reply = await server().send({ method: 'GET', path: '/api/v1/minder' });
  if (!reply) return undefined;
  const problem = read_problem(reply.content_type, reply.text);
  if (problem?.code === 'minder_ended') {
    await house.ledger.drafts.drop(DRAFT);
    return 'ended';
  }
  const told = reply.status === 200 ? parse_json(reply.text) : undefined;
  if (!is_object(told)) return undefined;
  await house.ledger.drafts.put({ id: DRAFT, kind: DRAFT, value: told });
  const week = week_of(told);
  void keep_photos(week);
  return week;
}

/** Small ones of every lot and chore, fetched while there is a signal. */
async function keep_photos({ chores, lots }: Week): Promise<void> {
  const hashes = new Set([...chores, ...lots].map(({ photo }) => photo).filter(Boolean));
  for (const hash of hashes) await house.ledger.photos.look(hash, 'thumbnail');
}
