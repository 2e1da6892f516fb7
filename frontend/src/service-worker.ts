/**
 * The application shell on the phone: every built file is kept at install, so that a cold start needs no network. It
 * holds no entries and queues no requests; nothing under /api is ever touched.
 *
 * A new worker waits until a person takes the new version, or all windows are closed: no round changes build on the
 * way. Until then the files of the running build stay, also those it has not loaded yet.
 */
declare const __KEEP__: readonly { readonly url: string; readonly revision: string }[];
declare const __BUILD__: string;
declare const self: ServiceWorkerGlobalScope;

const PREFIX = 'rounds-shell-';
const CACHE = PREFIX + __BUILD__;
const FILES = __KEEP__.map((file) => file.url);
const KEPT = new Set(FILES);

self.addEventListener('install', (event) => event.waitUntil(keep_all()));
self.addEventListener('activate', (event) => event.waitUntil(drop_older_and_take_over()));
self.addEventListener('message', (event) => {
  if (event.data === 'take') void self.skipWaiting();
});
self.addEventListener('push', (event) => event.waitUntil(tell(event.data?.text() ?? '')));
self.addEventListener('notificationclick', (event) => {
  event.notification.close();
  event.waitUntil(to_rounds());
});
self.addEventListener('fetch', (event) => {
  const kept = name_of(event.request);
  if (kept !== undefined) event.respondWith(from_shell(kept, event.request));
});

/** What the server said, encrypted for this browser alone; the next notice takes its place. */
async function tell(line: string): Promise<void> {
  await self.registration.showNotification('Winter Rounds', {
    body: line,
    tag: 'day',
    icon: '/icons/mark-192.png',
  });
}

/** A window that is open is come back to, where it stands: a walk may be under way in it. */
async function to_rounds(): Promise<void> {
  const windows = await self.clients.matchAll({ type: 'window' });
  const [open] = windows;
  if (open) await open.focus();
  else await self.clients.openWindow('/#/rounds');
}

/** All or nothing: half a build is no build. Named files never change, so an older cache may lend them. */
async function keep_all(): Promise<void> {
  const cache = await caches.open(CACHE);
  await Promise.all(FILES.map((url) => keep(cache, url)));
}

async function keep(cache: Cache, url: string): Promise<void> {
  const lent = url.startsWith('/assets/') ? await caches.match(url) : undefined;
  const response = lent ?? (await fetch(new Request(url, { cache: 'reload', credentials: 'same-origin' })));
  if (!response.ok || response.redirected) throw new Error(`${url} could not be kept`);
  await cache.put(url, response);
}

/**
 * Reached only when no page of the older build is open any more, or a person asked for the new one in one window. A
 * round may be open in another: the files of the build before stay for it.
 */
async function drop_older_and_take_over(): Promise<void> {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(older.slice(0, -1).map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** The kept file that answers a request; undefined: none of the shell's business. */
function name_of(request: Request): string | undefined {
  if (request.method !== 'GET') return undefined;
  const { origin, pathname } = new URL(request.url);
  if (origin !== self.location.origin || pathname.startsWith('/api/')) return undefined;
  if (KEPT.has(pathname) || pathname.startsWith('/assets/')) return pathname;
  return request.mode === 'navigate' && !pathname.startsWith('/admin') ? '/' : undefined;
}

async function from_shell(url: string, request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  return (await cache.match(url)) ?? (await caches.match(url)) ?? fetch(request);
}

export {};
