/**
 * What an answer to a whole request means. Only a well-formed answer of our own server may change anything; a page
 * of HTML with 200 (captive portal, proxy) changes nothing, and neither does a 4xx nobody has told us of.
 */
import { read_problem } from '../wire/problem.ts';
import type { Reply, Request, Transport } from './ports.ts';
import type { Halt } from './shapes.ts';

/** Why the exchange stops for now. Everything stays where it is. */
export type Stop =
  | { readonly kind: 'failed' }
  /** The server named a time to wait. */
  | { readonly kind: 'later'; readonly ms: number }
  | { readonly kind: 'halted'; readonly why: Halt; readonly detail?: string };

export type Answer =
  | { readonly kind: 'ours'; readonly text: string }
  | { readonly kind: 'reset' }
  /** `ours` false: a proxy on the way said so. */
  | { readonly kind: 'too_large'; readonly ours: boolean; readonly detail: string }
  | Stop;

export const FAILED: Stop = { kind: 'failed' };
export const NOT_OURS: Stop = { kind: 'halted', why: 'not_ours' };

/** A proxy that asks for a year is not obeyed. */
const LONGEST_WAIT_MS = 30 * 60_000;
const UNTOLD_WAIT_MS = 60_000;

export async function ask(
  transport: Transport,
  request: Request,
  now: number,
  signal?: AbortSignal,
): Promise<Answer> {
  const reply = await transport.send(request, signal);
  return reply === undefined ? FAILED : sort_reply(reply, now);
}

export function sort_reply(reply: Reply, now: number): Answer {
  const { status } = reply;
  if (status >= 200 && status < 300) return is_json(reply) ? { kind: 'ours', text: reply.text } : NOT_OURS;
  if (status === 429 || status === 503) return { kind: 'later', ms: wait_of(reply.retry_after, now) };
  if (status >= 500) return FAILED;
  return sort_problem(reply);
}

function sort_problem(reply: Reply): Answer {
  const problem = read_problem(reply.content_type, reply.text);
  if (reply.status === 413)
    return { kind: 'too_large', ours: problem !== undefined, detail: problem?.detail ?? '' };
  if (problem === undefined) return NOT_OURS;
  if (reply.status === 409 && problem.code === 'reset') return { kind: 'reset' };
  return { kind: 'halted', why: halt_of(reply.status, problem.code), detail: problem.detail };
}

function halt_of(status: number, code: string): Halt {
  if (status === 401) return 'sign_in';
  if (status === 403 && code === 'revoked') return 'revoked';
  return status === 426 ? 'update' : 'stopped';
}

const is_json = (reply: Reply): boolean => /^application\/json\b/i.test(reply.content_type);

/** `Retry-After` in seconds or as a date (RFC 9110, section 10.2.3). */
function wait_of(retry_after: string | undefined, now: number): number {
  if (retry_after === undefined) return UNTOLD_WAIT_MS;
  const ms = /^\d+$/.test(retry_after) ? Number(retry_after) * 1000 : Date.parse(retry_after) - now;
  return Number.isNaN(ms) ? UNTOLD_WAIT_MS : Math.min(Math.max(ms, 0), LONGEST_WAIT_MS);
}
