// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { run, tape_of } from './simulation.ts';

const SEEDS = Number(process.env['ROUNDS_SEEDS'] ?? 200);
const FROM = Number(process.env['ROUNDS_SEED_FROM'] ?? 1);

describe('the simulator', () => {
  it('loses, doubles and changes nothing', async () => {
    const tally = new Map<string, number>();
    for (let seed = FROM; seed < FROM + SEEDS; seed += 1) {
      const ran = await run(seed, tape_of(seed)).catch((error: unknown) => {
        throw new Error(`seed ${String(seed)}`, { cause: error });
      });
      for (const [what, count] of ran.tally) tally.set(what, (tally.get(what) ?? 0) + count);
    }
    console.log(Object.fromEntries([...tally].sort()));
    expect(tally.size).toBeGreaterThan(0);
  }, 600_000);
});
