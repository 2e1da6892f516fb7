// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { Ended } from './cycle.ts';
import { Exchange, type ExchangeDeps } from './exchange.ts';
import type { Timers } from './ports.ts';
import { pause_ms } from './waiting.ts';
import { window_locks } from './locks.ts';

/** Time one sets: what is planned runs when its time has come. */
class SetTimers implements Timers {
  now = 0;
  #planned: { readonly at: number; readonly act: () => void }[] = [];

  elapsed(): number {
    return this.now;
  }

  after(ms: number, act: () => void): () => void {
    const plan = { at: this.now + ms, act };
    this.#planned.push(plan);
    return () => {
      this.#planned = this.#planned.filter((one) => one !== plan);
    };
  }

  async pass(ms: number): Promise<void> {
    const end = this.now + ms;
    for (;;) {
      const next = this.#planned.filter((plan) => plan.at <= end).sort((a, b) => a.at - b.at)[0];
      if (next === undefined) break;
      this.#planned = this.#planned.filter((plan) => plan !== next);
      this.now = next.at;
      next.act();
      await new Promise((resolve) => setImmediate(resolve));
    }
    this.now = end;
  }
}

interface World {
  readonly timers: SetTimers;
  readonly exchange: Exchange;
  /** When each cycle began. */
  readonly begun: number[];
  ends: Ended;
  visible: boolean;
  to_send: boolean;
}

function world(more: Partial<ExchangeDeps> = {}): World {
  const timers = new SetTimers();
  const begun: number[] = [];
  const shares = [0.5, 0.9, 0.1, 0.7, 0.3];
  const state: World = {
    timers,
    begun,
    ends: { kind: 'done' },
    visible: true,
    to_send: false,
    exchange: new Exchange({
      lock: 'x',
      locks: window_locks(),
      random: { bytes: () => new Uint8Array(), share: () => shares[begun.length % shares.length] ?? 0 },
      timers,
      visible: () => state.visible,
      anything_to_send: async () => state.to_send,
      cycle: async () => {
        begun.push(timers.now);
        return state.ends;
      },
      ...more,
    }),
  };
  return state;
}

describe('when to exchange', () => {
  it('two seconds after the last save', async () => {
    const { exchange, timers, begun } = world();
    exchange.saved();
    await timers.pass(1_500);
    exchange.saved();
    await timers.pass(1_999);
    expect(begun).toEqual([]);
    await timers.pass(1);
    expect(begun).toEqual([3_500]);
  });

  it('within ten seconds of the first save of a row that does not end', async () => {
    const { exchange, timers, begun } = world();
    for (let crate = 0; crate < 20; crate += 1) {
      exchange.saved();
      await timers.pass(1_000);
    }
    expect(begun).toEqual([10_000, 20_000]);
    await timers.pass(30_000);
    expect(begun).toHaveLength(2);
  });

  it('two seconds after a cycle in which something was saved', async () => {
    const begun: number[] = [];
    const at = world({
      cycle: async () => {
        begun.push(at.timers.now);
        if (begun.length === 1) at.exchange.saved();
        return { kind: 'done' };
      },
    });
    await at.exchange.nudge();
    await at.timers.pass(30_000);
    expect(begun).toEqual([0, 2_000]);
  });

  it('every minute while visible, and never while hidden (invariant 34)', async () => {
    const at = world();
    await at.exchange.nudge();
    await at.timers.pass(180_000);
    expect(at.begun).toEqual([0, 60_000, 120_000, 180_000]);
    at.visible = false;
    await at.timers.pass(3_600_000);
    expect(at.begun).toHaveLength(4);
    at.visible = true;
    expect(await at.exchange.nudge()).toBe('done');
    await at.timers.pass(60_000);
    expect(at.begun).toHaveLength(6);
  });

  it('goes on at once when a cycle was cut off by its time', async () => {
    const at = world();
    at.ends = { kind: 'cut' };
    await at.exchange.nudge();
    at.ends = { kind: 'done' };
    await at.timers.pass(10);
    expect(at.begun).toEqual([0, 0]);
  });

  it('once more, soon, when asked during a cycle', async () => {
    let finish = (): void => undefined;
    const at = world({
      cycle: () => {
        at.begun.push(at.timers.now);
        return new Promise((resolve) => {
          finish = () => resolve({ kind: 'done' });
        });
      },
    });
    const running = at.exchange.nudge();
    expect(at.exchange.nudge()).toBe(running);
    await new Promise((resolve) => setImmediate(resolve));
    finish();
    await running;
    await at.timers.pass(2_000);
    expect(at.begun).toEqual([0, 2_000]);
  });

  it('stops for good when told', async () => {
    const at = world();
    await at.exchange.nudge();
    at.exchange.stop();
    at.exchange.saved();
    await at.timers.pass(600_000);
    expect(at.begun).toHaveLength(1);
    expect(await at.exchange.nudge()).toBe('hidden');
  });
});

describe('after a failure', () => {
  it('a fault of our own does not end the exchange for good', async () => {
    let broken = true;
    const at = world({
      cycle: async () => {
        at.begun.push(at.timers.now);
        if (broken) throw new TypeError('a fault');
        return { kind: 'done' };
      },
    });
    await expect(at.exchange.nudge()).rejects.toThrow('a fault');
    broken = false;
    await at.timers.pass(2_000);
    expect(at.begun).toHaveLength(2);
  });

  it('waits with full jitter, longer each time, to five minutes at most', () => {
    expect([0, 1, 2, 3].map((failures) => pause_ms(failures, 1))).toEqual([2_000, 4_000, 8_000, 16_000]);
    expect(pause_ms(60, 0.999)).toBeLessThan(300_000);
    expect(pause_ms(5, 0)).toBe(0);
  });

  it('invariant 34: a page that fails tries at most once a minute on average after ten minutes', async () => {
    const at = world();
    at.ends = { kind: 'failed' };
    await at.exchange.nudge();
    await at.timers.pass(600_000);
    const before = at.begun.length;
    await at.timers.pass(3_600_000);
    expect(at.begun.length - before).toBeGreaterThan(5);
    expect(at.begun.length - before).toBeLessThanOrEqual(60);
  });

  it('a save does not hasten it, being shown or online again does', async () => {
    const at = world();
    at.ends = { kind: 'failed' };
    for (let times = 0; times < 9; times += 1) await at.exchange.run();
    const before = at.begun.length;
    at.exchange.saved();
    await at.timers.pass(2_500);
    expect(at.begun).toHaveLength(before);
    await at.exchange.nudge();
    expect(at.begun).toHaveLength(before + 1);
  });

  it('hazard 36: a wait the server named is kept, by a tap too, with jitter behind it', async () => {
    const at = world();
    at.ends = { kind: 'later', ms: 20_000 };
    await at.exchange.nudge();
    at.ends = { kind: 'done' };
    expect(await at.exchange.nudge()).toBe('failed');
    await at.timers.pass(19_999);
    expect(at.begun).toHaveLength(1);
    await at.timers.pass(3_000);
    expect(at.begun).toHaveLength(2);
  });
});

describe('one at a time', () => {
  it('invariant 33: two windows with one lock run one cycle', async () => {
    const locks = window_locks();
    let finish = (): void => undefined;
    const first = world({
      locks,
      cycle: () =>
        new Promise((resolve) => {
          finish = () => resolve({ kind: 'done' });
        }),
    });
    const second = world({ locks });
    const running = first.exchange.nudge();
    await new Promise((resolve) => setImmediate(resolve));
    expect(await second.exchange.nudge()).toBe('busy');
    expect(second.begun).toEqual([]);
    finish();
    await running;
    await second.timers.pass(10_000);
    expect(second.begun).toHaveLength(1);
  });

  it('hazard 9: a window with something to send takes the lock of a frozen one after forty seconds', async () => {
    const asked: boolean[] = [];
    const at = world({
      locks: {
        async alone(_name, steal, work) {
          asked.push(steal);
          return steal ? work(new AbortController().signal) : 'busy';
        },
      },
    });
    await at.exchange.nudge();
    await at.timers.pass(45_000);
    expect(asked).toEqual([false, false, false, false, false]);
    at.to_send = true;
    await at.timers.pass(10_000);
    expect(asked.at(-1)).toBe(true);
    expect(at.begun).toEqual([50_000]);
  });

  it('a cycle begins nothing more after thirty seconds, and lets go when the page is frozen', async () => {
    let limits: { cut: () => boolean; signal: AbortSignal } | undefined;
    const at = world({
      cycle: (given) => {
        limits = given;
        return new Promise(() => undefined);
      },
    });
    void at.exchange.nudge();
    await new Promise((resolve) => setImmediate(resolve));
    await at.timers.pass(29_999);
    expect(limits?.cut()).toBe(false);
    await at.timers.pass(1);
    expect(limits?.cut()).toBe(true);
    expect(limits?.signal.aborted).toBe(false);
    at.exchange.let_go();
    expect(limits?.signal.aborted).toBe(true);
  });
});
