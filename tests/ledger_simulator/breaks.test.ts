// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { BREAKS } from './breaks.ts';
import { run, tape_of } from './simulation.ts';
import { Broken } from './watch.ts';

const WITHIN = 200;

/** The first seed that fails, and why. */
async function first_failure(
  options: Parameters<typeof run>[2],
): Promise<{ seed: number; why: string } | undefined> {
  for (let seed = 1; seed <= WITHIN; seed += 1) {
    try {
      await run(seed, tape_of(seed), options);
    } catch (error) {
      if (!(error instanceof Broken)) throw error;
      return { seed, why: error.message };
    }
  }
  return undefined;
}

describe('a deliberate break is found within 200 seeds', () => {
  it.each(Object.entries(BREAKS))(
    '%s',
    async (name, options) => {
      const found = await first_failure(options);
      console.log(`${name}: seed ${String(found?.seed)}, ${String(found?.why)}`);
      expect(found).toBeDefined();
    },
    60_000,
  );
});
