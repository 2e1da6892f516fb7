// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { web_locks, window_locks } from './locks.ts';

/** The browser's lock manager, as far as it is asked here. */
class Manager {
  #take_away: (() => void) | undefined;

  readonly request = async (
    _name: string,
    options: { ifAvailable?: boolean; steal?: boolean },
    work: (lock: object | null) => Promise<unknown>,
  ): Promise<unknown> => {
    if (this.#take_away !== undefined && !options.steal) return work(null);
    this.#take_away?.();
    const stolen = new Promise((_resolve, reject) => {
      this.#take_away = () => reject(new DOMException('stolen', 'AbortError'));
    });
    return Promise.race([stolen, work({})]);
  };
}

const locks = () => web_locks(new Manager() as unknown as LockManager);
const never = () => new Promise<string>(() => undefined);

describe('the lock across windows', () => {
  it('is had by one, and told busy to the other', async () => {
    const shared = locks();
    expect(await shared.alone('x', false, async () => 'ran')).toBe('ran');
    const other = locks();
    void other.alone('x', false, never);
    expect(await other.alone('x', false, async () => 'ran')).toBe('busy');
  });

  it('hazard 9: is taken from a frozen window, whose work hears of it', async () => {
    const shared = locks();
    let heard: AbortSignal | undefined;
    const first = shared.alone('x', false, (signal) => {
      heard = signal;
      return never();
    });
    expect(await shared.alone('x', true, async () => 'stole')).toBe('stole');
    expect(await first).toBe('busy');
    expect(heard?.aborted).toBe(true);
  });

  it('an error of the work is the work its own', async () => {
    await expect(locks().alone('x', false, () => Promise.reject(new Error('broken')))).rejects.toThrow(
      'broken',
    );
  });
});

describe('hazard 8: without locks in the browser', () => {
  it('one cycle runs in this window, and the next after it', async () => {
    const own = window_locks();
    let finish = (): void => undefined;
    const first = own.alone(
      'x',
      false,
      () => new Promise<string>((resolve) => (finish = () => resolve('first'))),
    );
    expect(await own.alone('x', false, async () => 'second')).toBe('busy');
    finish();
    expect(await first).toBe('first');
    expect(await own.alone('x', false, async () => 'third')).toBe('third');
    await expect(own.alone('x', false, () => Promise.reject(new Error('broken')))).rejects.toThrow();
    expect(await own.alone('x', false, async () => 'fourth')).toBe('fourth');
  });
});
