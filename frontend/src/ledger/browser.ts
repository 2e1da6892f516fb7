/** The world as the browser gives it. */
import type { Channel, Clock, Random, Timers } from './ports.ts';

export const browser_clock: Clock = {
  now: () => Date.now(),
  // The browser counts minutes west.
  offset_minutes: (at) => -new Date(at).getTimezoneOffset() || 0,
};

export const browser_random: Random = {
  bytes: (count) => crypto.getRandomValues(new Uint8Array(count)),
  share: () => Math.random(),
};

export const browser_timers: Timers = {
  after(ms, act) {
    const timer = setTimeout(act, ms);
    return () => clearTimeout(timer);
  },
  elapsed: () => performance.now(),
};

export function browser_channel<T>(name: string, read: (message: unknown) => T | undefined): Channel<T> {
  const channel = new BroadcastChannel(name);
  return {
    post: (message) => channel.postMessage(message),
    listen: (heard) => {
      channel.onmessage = (event: MessageEvent<unknown>) => {
        const message = read(event.data);
        if (message !== undefined) heard(message);
      };
    },
    close: () => channel.close(),
  };
}

/** Calls when the page is shown, is online again, or is put away. Returns what ends it. */
export function watch_page(on: { shown: () => void; put_away: () => void }): () => void {
  const ended = new AbortController();
  const { signal } = ended;
  document.addEventListener('visibilitychange', () => (is_visible() ? on.shown() : undefined), { signal });
  window.addEventListener('online', on.shown, { signal });
  window.addEventListener('pageshow', on.shown, { signal });
  window.addEventListener('pagehide', on.put_away, { signal });
  document.addEventListener('freeze', on.put_away, { signal });
  document.addEventListener('resume', on.shown, { signal });
  return () => ended.abort();
}

export const is_visible = (): boolean => document.visibilityState === 'visible';

/** Ask that the store be kept; undefined where the browser cannot be asked (no secure context). */
export async function ask_to_persist(): Promise<boolean | undefined> {
  const storage: StorageManager | undefined = navigator.storage;
  if (storage?.persist === undefined) return undefined;
  return (await storage.persisted()) || storage.persist();
}

export async function storage_estimate(): Promise<StorageEstimate> {
  const storage: StorageManager | undefined = navigator.storage;
  return storage?.estimate === undefined ? {} : storage.estimate();
}

/** Whether a new build waits to be taken; calls when that changes. */
export function watch_new_version(changed: () => void): () => boolean {
  let waits = false;
  const look = (registration: ServiceWorkerRegistration): void => {
    // A first worker waits for nobody: it is no new version of anything.
    const now = registration.waiting !== null && registration.active !== null;
    if (now === waits) return;
    waits = now;
    changed();
  };
  if (typeof navigator !== 'undefined' && 'serviceWorker' in navigator) {
    void navigator.serviceWorker.ready.then((registration) => {
      const follow = () => registration.installing?.addEventListener('statechange', () => look(registration));
      look(registration);
      // One may have been found before anybody listened.
      follow();
      registration.addEventListener('updatefound', follow);
    });
  }
  return () => waits;
}
