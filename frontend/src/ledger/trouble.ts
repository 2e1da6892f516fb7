/** What the phone's own store may answer instead of doing it. Nothing was written then. */
import type { Outcome, Trouble } from './shapes.ts';

export class LedgerTrouble extends Error {
  override readonly name = 'LedgerTrouble';
  readonly why: Trouble;

  constructor(why: Trouble, options?: ErrorOptions) {
    super(why, options);
    this.why = why;
  }
}

/** The connection was cut (a phone in the background does that): a new one may work. */
const LOST = new Set(['InvalidStateError', 'UnknownError', 'AbortError']);

const name_of = (error: unknown): string => (error instanceof Error ? error.name : '');

/** Worth one more try on a new connection. */
export const is_lost = (error: unknown): boolean => LOST.has(name_of(error));

/** The browser's error as a trouble a screen can tell; what is none of these is a fault of ours and stays as it is. */
export function as_trouble(error: unknown): unknown {
  if (error instanceof LedgerTrouble) return error;
  const name = name_of(error);
  if (name === 'QuotaExceededError') return new LedgerTrouble('store_full', { cause: error });
  if (name === 'VersionError') return new LedgerTrouble('store_newer', { cause: error });
  return is_lost(error) ? new LedgerTrouble('store_closed', { cause: error }) : error;
}

/** Trouble as a value, so that the compiler asks screens for every case. */
export async function outcome<T>(act: () => Promise<T>): Promise<Outcome<T>> {
  try {
    return { ok: true, value: await act() };
  } catch (error) {
    if (error instanceof LedgerTrouble) return { ok: false, why: error.why };
    throw error;
  }
}
