/** The requests of a run and what the model answered, to be played to the real server. */
import type { Written } from '../../frontend/src/wire/written.ts';
import type { Answered, Arrived } from './model/server.ts';
import type { State } from './model/state.ts';

export interface Exchanged {
  readonly at: string;
  readonly token: string;
  readonly method: string;
  readonly path: string;
  readonly body?: unknown;
  readonly status: number;
  readonly answer?: unknown;
}

export class Recording {
  household = '';
  founding: readonly Written[] = [];
  devices: readonly { readonly id: string; readonly people: readonly string[] }[] = [];
  readonly exchanges: Exchanged[] = [];

  found(lines: readonly Written[], state: State): void {
    this.household = state.household;
    this.founding = lines;
    this.devices = [...state.devices].map(([id, { people }]) => ({ id, people }));
  }

  exchange({ request, token }: Arrived, { reply }: Answered, now: number): void {
    const at = new Date(now).toISOString();
    const { method, path, body } = request;
    const asked = typeof body === 'string' ? { body: JSON.parse(body) as unknown } : {};
    const told = reply.content_type.startsWith('image/') ? {} : { answer: JSON.parse(reply.text) as unknown };
    this.exchanges.push({ at, token, method, path, ...asked, status: reply.status, ...told });
  }
}
