/** What the server is asked beside the exchange: pairing codes, phones, jobs, a household's beginning and end. */
import { server } from '../../ledger';
import {
  is_object,
  is_text,
  is_text_list,
  parse_json,
  read_all,
  type Json,
  type JsonObject,
} from '../../wire/json';
import { read_problem } from '../../wire/problem';

/** `no_answer`: no signal, or whoever answered was not our server. `refused`: its own sentence. */
export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly why: 'no_answer' }
  | { readonly ok: false; readonly why: 'refused'; readonly code: string; readonly detail: string };

export interface Code {
  readonly code: string;
  readonly ends_at: string;
}

export interface Phone {
  readonly id: string;
  readonly name: string;
  /** Who may write on it, the holder first. */
  readonly people: readonly string[];
  readonly last_seen?: string;
  readonly revoked_at?: string;
}

export interface Job {
  readonly name: string;
  readonly ended_at?: string;
  readonly seconds?: number;
  readonly ok: boolean;
  /** Why it last went wrong, as the program says it. */
  readonly why?: string;
  /** When it last went well: what its figures are as of. */
  readonly figures_as_of?: string;
}

export interface Jobs {
  readonly jobs: readonly Job[];
  /** The worker was heard from within its time. */
  readonly working: boolean;
}

export async function ask<T>(
  method: 'GET' | 'POST' | 'PUT',
  path: string,
  read: (reply: JsonObject) => T | undefined,
  body?: JsonObject,
): Promise<Answer<T>> {
  const reply = await server().send({
    method,
    path: `/api/v1/${path}`,
    ...(body && { body: JSON.stringify(body), content_type: 'application/json' }),
  });
  if (!reply) return { ok: false, why: 'no_answer' };
  const problem = read_problem(reply.content_type, reply.text);
  if (problem) return { ok: false, why: 'refused', code: problem.code, detail: problem.detail };
  const told = reply.status === 204 ? {} : parse_json(reply.text);
  const value = reply.status < 300 && is_object(told) ? read(told) : undefined;
  return value === undefined ? { ok: false, why: 'no_answer' } : { ok: true, value };
}

const optional = <K extends string>(name: K, value: Json | undefined): Partial<Record<K, string>> =>
  is_text(value) ? ({ [name]: value } as Record<K, string>) : {};

function read_phone(phone: Json): Phone | undefined {
  if (!is_object(phone)) return undefined;
  const { id, name, people, last_seen, revoked_at } = phone;
  if (!is_text(id) || !is_text(name) || !is_text_list(people)) return undefined;
  return { id, name, people, ...optional('last_seen', last_seen), ...optional('revoked_at', revoked_at) };
}

function read_job(job: Json): Job | undefined {
  if (!is_object(job) || !is_text(job['name'])) return undefined;
  const { name, ended_at, seconds, ok, why, figures_as_of } = job;
  return {
    name,
    ok: ok === true,
    ...optional('ended_at', ended_at),
    ...optional('why', why),
    ...optional('figures_as_of', figures_as_of),
    ...(typeof seconds === 'number' && { seconds }),
  };
}

export const make_code = (people: readonly string[]): Promise<Answer<Code>> =>
  ask(
    'POST',
    'codes',
    ({ code, ends_at }) => (is_text(code) && is_text(ends_at) ? { code, ends_at } : undefined),
    { people },
  );

export const list_phones = (): Promise<Answer<readonly Phone[]>> =>
  ask('GET', 'devices', (told) => read_all(told['devices'], read_phone));

export const revoke_phone = (id: string): Promise<Answer<true>> =>
  ask('POST', `devices/${id}/revoke`, () => true, {});

export const read_jobs = (): Promise<Answer<Jobs>> =>
  ask('GET', 'jobs', (told) => {
    const jobs = read_all(told['jobs'], read_job);
    return jobs && { jobs, working: told['working'] === true };
  });

export interface NewLink {
  readonly id: string;
  readonly token: string;
}
export interface Link {
  readonly id: string;
  readonly person: string;
  readonly until: string;
  readonly opened: number;
  readonly ended: boolean;
}

/** A link for a minder; its token is told this once. */
export const make_link = (asked: JsonObject): Promise<Answer<NewLink>> =>
  ask(
    'POST',
    'minder/links',
    ({ id, token }) => (is_text(id) && is_text(token) ? { id, token } : undefined),
    asked,
  );

export const list_links = (): Promise<Answer<readonly Link[]>> =>
  ask('GET', 'minder/links', (told) => read_all(told['links'], read_link));

export const end_link = (id: string): Promise<Answer<true>> =>
  ask('POST', `minder/links/${id}/end`, () => true, {});

function read_link(link: Json): Link | undefined {
  if (!is_object(link)) return undefined;
  const { id, person, until, opened, ended } = link;
  if (!is_text(id) || !is_text(person) || !is_text(until) || typeof opened !== 'number') return undefined;
  return { id, person, until, opened, ended: ended === true };
}

/** The invented household goes, rows and photos. */
export const end_demo = (): Promise<Answer<true>> => ask('POST', 'demo/leave', () => true, {});

/** What the server allows whoever asks from here. */
export const read_session = (): Promise<
  Answer<{ readonly open_demo: boolean; readonly found_household: boolean }>
> =>
  ask('GET', 'session', ({ may }) =>
    is_object(may)
      ? { open_demo: may['open_demo'] === true, found_household: may['found_household'] === true }
      : undefined,
  );
