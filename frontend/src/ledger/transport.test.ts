import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { browser_transport } from './transport.ts';

interface Fetched {
  readonly path: string;
  readonly init: RequestInit;
}

let fetched: Fetched[] = [];
let answers: (() => Response | Promise<Response>)[] = [];

beforeEach(() => {
  fetched = [];
  answers = [];
  document.cookie = 'csrftoken=first';
  vi.stubGlobal('fetch', (path: string, init: RequestInit) => {
    fetched.push({ path, init });
    return Promise.resolve((answers.shift() ?? (() => new Response('{}')))());
  });
});
afterEach(() => vi.unstubAllGlobals());

const header = (at: number, name: string): string | null => new Headers(fetched[at]?.init.headers).get(name);
const push = {
  method: 'POST',
  path: '/api/v1/sync/push',
  body: '{}',
  content_type: 'application/json',
} as const;
const json = (value: unknown, status = 200, more: Record<string, string> = {}) =>
  new Response(JSON.stringify(value), { status, headers: { 'content-type': 'application/json', ...more } });

describe('requests by the browser', () => {
  it('go to the same origin with the token read when sending, and the household that asks', async () => {
    document.cookie = 'csrftoken=second';
    await browser_transport('h').send(push);
    expect(fetched[0]?.path).toBe('/api/v1/sync/push');
    expect(fetched[0]?.init).toMatchObject({
      method: 'POST',
      credentials: 'same-origin',
      redirect: 'error',
      cache: 'no-store',
      body: '{}',
    });
    expect(header(0, 'X-CSRFToken')).toBe('second');
    expect(header(0, 'X-Household')).toBe('h');
    expect(header(0, 'Content-Type')).toBe('application/json');
  });

  it('send no token with what changes nothing', async () => {
    await browser_transport().send({ method: 'GET', path: '/api/v1/sync/pull?after=0' });
    expect(header(0, 'X-CSRFToken')).toBeNull();
    expect(header(0, 'X-Household')).toBeNull();
  });

  it('ask for a token first where there is none, so that nothing is refused', async () => {
    document.cookie = 'csrftoken=; expires=Thu, 01 Jan 1970 00:00:00 GMT';
    answers = [
      () => {
        document.cookie = 'csrftoken=given';
        return json({ done: true });
      },
    ];
    await browser_transport('h').send(push);
    expect(fetched.map(({ path }) => path)).toEqual(['/api/v1/csrf', '/api/v1/sync/push']);
    expect(header(1, 'X-CSRFToken')).toBe('given');
  });

  it('fetch a stale token anew and try once more, once', async () => {
    const stale = () => json({ code: 'csrf' }, 403);
    answers = [
      stale,
      () => {
        document.cookie = 'csrftoken=fresh';
        return json({ done: true });
      },
      stale,
    ];
    const reply = await browser_transport().send(push);
    expect(fetched.map(({ path }) => path)).toEqual([
      '/api/v1/sync/push',
      '/api/v1/csrf',
      '/api/v1/sync/push',
    ]);
    expect(header(2, 'X-CSRFToken')).toBe('fresh');
    expect(reply?.status).toBe(403);
  });

  it('ask for a token first where there is none yet, so that the first pairing is not refused', async () => {
    document.cookie = 'csrftoken=; max-age=0';
    answers = [
      () => {
        document.cookie = 'csrftoken=given';
        return json({ token: 'given' });
      },
    ];
    expect((await browser_transport().send(push))?.status).toBe(200);
    expect(fetched.map(({ path }) => path)).toEqual(['/api/v1/csrf', '/api/v1/sync/push']);
    expect(header(1, 'X-CSRFToken')).toBe('given');
  });

  it('do not take another 403 for a stale token', async () => {
    answers = [() => json({ code: 'revoked' }, 403)];
    expect((await browser_transport().send(push))?.status).toBe(403);
    expect(fetched).toHaveLength(1);
  });

  it('tell what came back, with how long to wait', async () => {
    answers = [() => json({ code: 'busy' }, 503, { 'retry-after': '20' })];
    expect(await browser_transport().send(push)).toEqual({
      status: 503,
      content_type: 'application/json',
      retry_after: '20',
      text: '{"code":"busy"}',
    });
  });

  it('give a picture as bytes', async () => {
    answers = [() => new Response(Uint8Array.from([1, 2]), { headers: { 'content-type': 'image/jpeg' } })];
    const reply = await browser_transport().send({ method: 'GET', path: '/api/v1/photos/x' });
    expect([...new Uint8Array(reply?.bytes ?? new ArrayBuffer(0))]).toEqual([1, 2]);
  });

  it('are no answer when the network fails, or a page is redirected to', async () => {
    answers = [() => Promise.reject(new TypeError('failed to fetch'))];
    expect(await browser_transport().send(push)).toBeUndefined();
  });

  it('end when told', async () => {
    answers = [() => new Promise<Response>(() => undefined)];
    const ended = new AbortController();
    void browser_transport().send(push, ended.signal);
    ended.abort();
    expect(fetched[0]?.init.signal?.aborted).toBe(true);
  });
});
