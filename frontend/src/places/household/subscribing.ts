/** A browser's subscription to notices: asked for by a person's touch, never by itself. */
import type { JsonObject } from '../../wire/json';

/** What of the browser is needed; handed in, so that tests own it. */
export interface Browser {
  readonly ask_leave: () => Promise<string>;
  readonly subscribe: (key: Uint8Array<ArrayBuffer>) => Promise<{ toJSON(): PushSubscriptionJSON }>;
}

export type Subscribed =
  | { readonly ok: true; readonly told: JsonObject }
  /** `refused`: the person said no to the browser; `none`: no push service answered. */
  | { readonly ok: false; readonly why: 'refused' | 'none' };

/** base64url without padding (RFC 7515 section 2). */
export function bytes_of(text: string): Uint8Array<ArrayBuffer> {
  const plain = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(plain, (letter) => letter.charCodeAt(0));
}

export async function subscribe(browser: Browser, push_key: string): Promise<Subscribed> {
  if ((await browser.ask_leave()) !== 'granted') return { ok: false, why: 'refused' };
  try {
    const { endpoint, keys } = (await browser.subscribe(bytes_of(push_key))).toJSON();
    const [p256dh, auth] = [keys?.['p256dh'], keys?.['auth']];
    return endpoint && p256dh && auth
      ? { ok: true, told: { endpoint, p256dh, auth } }
      : { ok: false, why: 'none' };
  } catch {
    return { ok: false, why: 'none' };
  }
}

/** This browser, where it has what notices need. */
export function this_browser(): Browser | undefined {
  const { serviceWorker } = navigator;
  if (!('PushManager' in globalThis) || !('Notification' in globalThis)) return undefined;
  // Without a secure context there is no worker, whatever the types say.
  if (!(serviceWorker as ServiceWorkerContainer | undefined)) return undefined;
  return {
    ask_leave: () => Notification.requestPermission(),
    subscribe: async (key) => {
      const { pushManager } = await serviceWorker.ready;
      return pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: key });
    },
  };
}

/** The browser lets go of it too. */
export async function unsubscribe(): Promise<void> {
  const ready = await navigator.serviceWorker.ready;
  await (await ready.pushManager.getSubscription())?.unsubscribe();
}
