import { describe, expect, test } from 'vitest';
import { bytes_of, subscribe, type Browser } from './subscribing.ts';

// The browser's public key and secret of RFC 8291, section 5 (seen).
const KEY = 'BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4';
const told = {
  endpoint: 'https://push.example.net/x',
  keys: { p256dh: KEY, auth: 'BTBZMqHH6r4Tts7J_aSIgg' },
};
const browser = (leave: string, answer: () => Promise<PushSubscriptionJSON>): Browser & { asked: number } => {
  const made = {
    asked: 0,
    ask_leave: () => Promise.resolve(leave),
    subscribe: async () => {
      made.asked += 1;
      const json = await answer();
      return { toJSON: () => json };
    },
  };
  return made;
};

describe('a browser’s subscription', () => {
  test('is told to the server with its keys', async () => {
    const subscribed = await subscribe(
      browser('granted', () => Promise.resolve(told)),
      KEY,
    );
    expect(subscribed).toEqual({
      ok: true,
      told: { endpoint: told.endpoint, p256dh: KEY, auth: told.keys.auth },
    });
  });
  test('is not asked for where the person said no', async () => {
    const asked = browser('denied', () => Promise.resolve(told));
    expect(await subscribe(asked, KEY)).toEqual({ ok: false, why: 'refused' });
    expect(asked.asked).toBe(0);
  });
  test('without a push service, or without keys, is none', async () => {
    const none = browser('granted', () => Promise.reject(new Error('no service')));
    expect(await subscribe(none, KEY)).toEqual({ ok: false, why: 'none' });
    const keyless = browser('granted', () => Promise.resolve({ endpoint: told.endpoint }));
    expect(await subscribe(keyless, KEY)).toEqual({ ok: false, why: 'none' });
  });
  test('the server’s key is read from base64url: an uncompressed point of 65 bytes', () => {
    const bytes = bytes_of(KEY);
    expect(bytes).toHaveLength(65);
    expect(bytes[0]).toBe(4);
  });
});
