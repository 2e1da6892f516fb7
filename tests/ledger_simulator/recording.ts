/** The requests of a run, what happened to the server between them, and what the model answered. */
import type { Json } from '../../frontend/src/wire/json.ts';
import type { Written } from '../../frontend/src/wire/written.ts';
import type { Answered, Arrived } from './model/server.ts';
import type { State } from './model/state.ts';

export type Recorded =
  | {
      readonly event: 'asked';
      readonly at: string;
      /** Id of the device whose token comes with the request. */
      readonly device: string;
      readonly method: string;
      readonly path: string;
      readonly body?: unknown;
      readonly status: number;
      readonly answer: unknown;
    }
  | {
      readonly event: 'sheet';
      readonly at: string;
      readonly key: string;
      readonly as_of: number;
      readonly content: Json;
    }
  | { readonly event: 'signed_in'; readonly device: string; readonly signed_in: boolean }
  | { readonly event: 'backup' | 'restore' };

export class Recording {
  household = '';
  founding: readonly Written[] = [];
  devices: readonly {
    readonly id: string;
    readonly people: readonly string[];
    readonly from: number;
    readonly to: number;
  }[] = [];
  readonly events: Recorded[] = [];

  found(lines: readonly Written[], state: State): void {
    this.household = state.household;
    this.founding = lines;
    this.devices = [...state.devices].map(([id, { people, codes }]) => ({ id, people, ...codes }));
  }

  /** Photos of a simulation are no pictures, and what a proxy on the way refuses never reaches the server. */
  asked({ request, token }: Arrived, { reply }: Answered, now: number): void {
    const { method, path, body } = request;
    if (path.startsWith('/api/v1/photos/') || reply.status === 413) return;
    this.events.push({
      event: 'asked',
      at: new Date(now).toISOString(),
      device: token,
      method,
      path,
      ...(typeof body === 'string' && { body: JSON.parse(body) as unknown }),
      status: reply.status,
      answer: JSON.parse(reply.text) as unknown,
    });
  }
}
