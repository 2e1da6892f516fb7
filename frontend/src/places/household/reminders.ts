/** How somebody is reminded, as the server keeps it: read and set where there is a signal. */
import { is_text, type JsonObject } from '../../wire/json';
import { ask, type Answer } from './server';

export interface Wishes {
  /** When the calendar's link was made; absent: there is none. */
  readonly calendar_made_at?: string;
  readonly mail_to: string;
  readonly mail_on: boolean;
  /** The server sends mail. */
  readonly mail_here: boolean;
  /** Notices come to this phone. */
  readonly push_on: boolean;
  readonly push_key: string;
  readonly at: string;
  readonly quiet_from: string;
  readonly quiet_until: string;
}

export type Wished = Pick<Wishes, 'mail_to' | 'mail_on' | 'at' | 'quiet_from' | 'quiet_until'>;

function read_wishes(told: JsonObject): Wishes | undefined {
  const { calendar_made_at, mail_to, push_key, at, quiet_from, quiet_until } = told;
  if (!is_text(mail_to) || !is_text(push_key)) return undefined;
  if (!is_text(at) || !is_text(quiet_from) || !is_text(quiet_until)) return undefined;
  return {
    ...(is_text(calendar_made_at) && { calendar_made_at }),
    mail_to,
    mail_on: told['mail_on'] === true,
    mail_here: told['mail_here'] === true,
    push_on: told['push_on'] === true,
    push_key,
    at,
    quiet_from,
    quiet_until,
  };
}

const path = (person: string, rest = ''): string => `reminders/${person}${rest}`;
const done = (): true => true;

export const wishes_of = (person: string): Promise<Answer<Wishes>> => ask('GET', path(person), read_wishes);

export const wish = (person: string, wished: Wished): Promise<Answer<Wishes>> =>
  ask('PUT', path(person), read_wishes, { ...wished });

export const make_calendar = (person: string): Promise<Answer<string>> =>
  ask('POST', path(person, '/calendar'), ({ token }) => (is_text(token) ? token : undefined), {});

export const end_calendar = (person: string): Promise<Answer<true>> =>
  ask('POST', path(person, '/calendar/end'), done, {});

export const push_on = (person: string, told: JsonObject): Promise<Answer<true>> =>
  ask('POST', path(person, '/push'), done, told);

export const push_off = (person: string): Promise<Answer<true>> =>
  ask('POST', path(person, '/push/end'), done, {});
