/** One exchange at a time on a phone, where the browser has locks; without them the result is the same. */
import type { Locks } from './ports.ts';

/** Without a secure context, and in older browsers, there are none. */
export function browser_locks(): Locks {
  const locks: LockManager | null | undefined = navigator.locks;
  return locks ? web_locks(locks) : window_locks();
}

/** Across windows. A lock that is taken away by another window ends the work's signal. */
export function web_locks(locks: LockManager): Locks {
  return {
    async alone(name, steal, work) {
      const lost = new AbortController();
      try {
        return await locks.request(name, steal ? { steal } : { ifAvailable: true }, async (lock) =>
          lock === null ? 'busy' : work(lost.signal),
        );
      } catch (error) {
        lost.abort();
        if (error instanceof DOMException && error.name === 'AbortError') return 'busy';
        throw error;
      }
    },
  };
}

/** Within this window only. Two windows may push at once: the server takes each line once all the same. */
export function window_locks(): Locks {
  const held = new Set<string>();
  return {
    async alone(name, _steal, work) {
      if (held.has(name)) return 'busy';
      held.add(name);
      try {
        return await work(new AbortController().signal);
      } finally {
        held.delete(name);
      }
    },
  };
}
