/** Requests to our own server by the browser's means. The device's token is a cookie this code never sees. */
import type { Reply, Request, Transport } from './ports.ts';
import type { Id } from './shapes.ts';

const TIME_OUT_MS = 10_000;
/** A photo may take long, so long as it moves. */
const STANDSTILL_MS = 30_000;
const CSRF_PATH = '/api/v1/csrf';

/** Of several households this browser is let into, `household` says which one asks. */
export function browser_transport(household?: Id): Transport {
  const named = household === undefined ? {} : { 'X-Household': household };
  return { send: (request, signal) => send(request, named, signal) };
}

type Headers = Readonly<Record<string, string>>;

async function send(request: Request, named: Headers, signal?: AbortSignal): Promise<Reply | undefined> {
  // The token is read when sending and never kept with a line; none yet: asked for first, so that nothing is refused.
  if (changes(request) && token() === undefined) await ask_token(named, signal);
  const reply = await send_once(request, named, signal);
  // A stale one is fetched anew, once.
  if (reply?.status !== 403 || !changes(request) || !/csrf/i.test(reply.text)) return reply;
  await ask_token(named, signal);
  return send_once(request, named, signal);
}

const token = (): string | undefined => /(?:^|;\s*)csrftoken=([^;]+)/.exec(document.cookie)?.[1];

const ask_token = (named: Headers, signal?: AbortSignal): Promise<Reply | undefined> =>
  fetch_once({ method: 'GET', path: CSRF_PATH }, named, signal);

const changes = ({ method }: Request): boolean => method === 'POST' || method === 'PUT';

const send_once = (request: Request, named: Headers, signal?: AbortSignal): Promise<Reply | undefined> =>
  request.body instanceof ArrayBuffer
    ? upload(request, request.body, named, signal)
    : fetch_once(request, named, signal);

function headers_of(request: Request, named: Headers): Headers {
  const known = token();
  return {
    ...named,
    Accept: 'application/json, application/problem+json, image/*',
    ...(request.content_type !== undefined && { 'Content-Type': request.content_type }),
    ...(changes(request) && known !== undefined && { 'X-CSRFToken': known }),
  };
}

async function fetch_once(
  request: Request,
  named: Headers,
  signal?: AbortSignal,
): Promise<Reply | undefined> {
  const time_out = AbortSignal.timeout(TIME_OUT_MS);
  try {
    const response = await fetch(request.path, {
      method: request.method,
      headers: headers_of(request, named),
      credentials: 'same-origin',
      cache: 'no-store',
      // A login page somebody redirects to is no answer of ours.
      redirect: 'error',
      signal: signal === undefined ? time_out : AbortSignal.any([signal, time_out]),
      ...(typeof request.body === 'string' && { body: request.body }),
    });
    return await read(response);
  } catch {
    return undefined;
  }
}

async function read(response: Response): Promise<Reply> {
  const content_type = response.headers.get('content-type') ?? '';
  const retry_after = response.headers.get('retry-after');
  const picture = /^image\//i.test(content_type);
  return {
    status: response.status,
    content_type,
    ...(retry_after !== null && { retry_after }),
    text: picture ? '' : await response.text(),
    ...(picture && { bytes: await response.arrayBuffer() }),
  };
}

/** `fetch` does not tell how an upload moves. */
function upload(
  request: Request,
  body: ArrayBuffer,
  named: Headers,
  signal?: AbortSignal,
): Promise<Reply | undefined> {
  return new Promise((resolve) => {
    const sending = new XMLHttpRequest();
    let standstill: ReturnType<typeof setTimeout>;
    const moved = (): void => {
      clearTimeout(standstill);
      standstill = setTimeout(() => sending.abort(), STANDSTILL_MS);
    };
    const end = (reply: Reply | undefined) => (): void => {
      clearTimeout(standstill);
      resolve(reply);
    };
    sending.open(request.method, request.path);
    for (const [name, value] of Object.entries(headers_of(request, named)))
      sending.setRequestHeader(name, value);
    sending.upload.onprogress = moved;
    sending.onload = () => end(reply_of(sending))();
    sending.onerror = end(undefined);
    sending.onabort = end(undefined);
    signal?.addEventListener('abort', () => sending.abort(), { once: true });
    moved();
    sending.send(body);
  });
}

function reply_of(sending: XMLHttpRequest): Reply {
  const retry_after = sending.getResponseHeader('retry-after');
  return {
    status: sending.status,
    content_type: sending.getResponseHeader('content-type') ?? '',
    ...(retry_after !== null && { retry_after }),
    text: sending.responseText,
  };
}
