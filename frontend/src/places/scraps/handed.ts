/**
 * An adult's phone in a small child's hands: the pictures stay until an adult takes it back, also over a reload. The child is
 * kept by name in the browser's own store, which outlives the page.
 */
import type { Id } from '../../ledger';

const KEY = 'rounds.handed_to';

type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** A browser that keeps nothing (private, full) still hands over: until it is reloaded. */
function shelf(): Shelf | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined;
  }
}

let now: Id | undefined;
let listening = false;

export function handed_to(): Id | undefined {
  return now ?? shelf()?.getItem(KEY) ?? undefined;
}

export const child_page = (child: Id): string => `#/child/${child}`;

/** Wherever the page is sent meanwhile, it comes back. */
function hold(): void {
  const child = handed_to();
  if (child !== undefined && location.hash !== child_page(child)) location.replace(child_page(child));
}

/** Begin; called again after a reload, by the page itself and where the app starts. */
export function hand_over(child: Id): void {
  now = child;
  shelf()?.setItem(KEY, child);
  if (!listening) addEventListener('hashchange', hold);
  listening = true;
}

export function take_back(): void {
  now = undefined;
  shelf()?.removeItem(KEY);
  removeEventListener('hashchange', hold);
  listening = false;
}

/** Where the app starts: a phone that was handed over opens at the pictures. */
export function hold_if_handed(): void {
  const child = handed_to();
  if (child === undefined) return;
  hand_over(child);
  hold();
}
