/** What may go wrong on the way: to a request before it arrives, to a reply after the server did its work. */
import type { Reply } from '../../frontend/src/ledger/ports.ts';
import { problem } from './model/server.ts';
import type { Dice } from './dice.ts';

const html = (status: number): Reply => ({
  status,
  content_type: 'text/html; charset=utf-8',
  text: '<!doctype html><title>Welcome to the train</title>',
});

/** Answers by somebody else, or by a server that did not get to it. Each changes nothing on the phone. */
export const UNKNOWN_ANSWERS: Readonly<Record<string, () => Reply>> = {
  'html 200': () => html(200),
  'html 404': () => html(404),
  'other json': () => ({ status: 200, content_type: 'application/json', text: '{"hello":"there"}' }),
  'empty 200': () => ({ status: 200, content_type: 'application/json', text: '' }),
  'server error 500': () => html(500),
  'busy 503': () => ({ ...html(503), retry_after: '20' }),
  'too many 429': () => ({ ...problem(429, 'too_many'), retry_after: '5' }),
  'unknown 4xx': () => problem(418, 'teapot'),
  'update 426': () => problem(426, 'update'),
};

export function unknown_answer(dice: Dice): { readonly name: string; readonly reply: Reply } {
  const name = dice.pick(Object.keys(UNKNOWN_ANSWERS)) ?? 'html 200';
  return { name, reply: UNKNOWN_ANSWERS[name]?.() ?? html(200) };
}

/** Half of what was sent. */
export const cut_off = (reply: Reply): Reply => ({
  ...reply,
  text: reply.text.slice(0, reply.text.length >> 1),
});
