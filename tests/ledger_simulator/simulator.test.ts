// @vitest-environment node
/**
 * Thousands of seeded runs of two to five phones against a model server, each with losses, repeats, delays,
 * restarts, wrong clocks, resets and refusals. A failure names its invariant, its seed and the shortest tape found.
 *
 * After every step (`watch.ts`): invariant 1, invariant 3, invariant 4, invariant 6, invariant 7, invariant 11,
 * invariant 12, invariant 13, invariant 14, invariant 15, invariant 19, invariant 22, invariant 26, invariant 35.
 * At quiet (`end.ts`): invariant 2, invariant 3, invariant 5, invariant 8, invariant 9, invariant 10, invariant 16,
 * invariant 17, invariant 18, invariant 20, invariant 21, invariant 23, invariant 24, invariant 27.
 */
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { IndexedDisk } from './indexed_disk.ts';
import { shrink } from './shrinking.ts';
import { run, tape_of, type Options, type Ran } from './simulation.ts';

const number_in = (name: string, otherwise: number): number => Number(process.env[name] ?? otherwise);
const SEEDS = number_in('ROUNDS_SEEDS', 2000);
const INDEXED_SEEDS = number_in('ROUNDS_INDEXED_SEEDS', 60);
const FROM = number_in('ROUNDS_SEED_FROM', 1);

/** Each of these must have happened somewhere in the run, or it was not tried. */
const MUST_OCCUR = [
  'fault: lose_request',
  'fault: repeat',
  'fault: unknown_answer',
  'fault: lose_reply',
  'fault: cut_reply',
  'fault: small_proxy',
  'fault: restart',
  'fault: skew',
  'fault: days',
  'fault: restore',
  'fault: erase',
  'fault: sign_out',
  'fault: copy_store',
  'fault: restore_under_way',
  'fault: join',
  'answer: html 200',
  'answer: busy 503',
  'answer: unknown 4xx',
  'receipt: accepted',
  'receipt: duplicate',
  'receipt: refused shape',
  'receipt: refused grams',
  'receipt: refused unknown_kind',
  'receipt: refused unknown_reference',
  'receipt: refused parent_refused',
  'receipt: refused role',
  'receipt: refused needs_switch',
  'receipt: refused id_reused',
  'receipt: refused erased',
  'reset met',
  'too large met',
  'signed out met',
  'missing lines asked for',
  'phone renewed',
  'edit in conflict',
  'strike',
  'strike of a strike',
  'edit',
  'role changed',
  'photo taken',
  'photo taken in',
  'part moved',
  'sheet',
  'tray mend',
  'tray again',
  'tray drop',
];
const LEAST_STEPS = 60;
const LEAST_FAULTS = 2;

async function run_or_tell(seed: number, options: Options = {}): Promise<Ran> {
  const tape = tape_of(seed);
  try {
    return await run(seed, tape, options);
  } catch (error) {
    const shortest = await shrink(seed, tape, options);
    const told = `seed ${String(seed)} fails; ${String(shortest.length)} steps are enough: ${JSON.stringify(shortest)}`;
    throw new Error(told, { cause: error });
  }
}

function print(tally: ReadonlyMap<string, number>): void {
  const rows = [...tally].sort().map(([what, count]) => `${String(count).padStart(8)}  ${what}`);
  console.log(rows.join('\n'));
}

describe('the simulator', () => {
  it(`loses, doubles and changes nothing in ${String(SEEDS)} runs, each the same the second time`, async () => {
    const tally = new Map<string, number>();
    for (let seed = FROM; seed < FROM + SEEDS; seed += 1) {
      const ran = await run_or_tell(seed);
      expect(ran.steps, `steps of seed ${String(seed)}`).toBeGreaterThanOrEqual(LEAST_STEPS);
      expect(ran.faults, `faults of seed ${String(seed)}`).toBeGreaterThanOrEqual(LEAST_FAULTS);
      const again = await run(seed, tape_of(seed));
      expect(again.summary === ran.summary, `seed ${String(seed)} went another way the second time`).toBe(
        true,
      );
      for (const [what, count] of ran.tally) tally.set(what, (tally.get(what) ?? 0) + count);
    }
    print(tally);
    if (SEEDS < 500) return;
    expect(MUST_OCCUR.filter((what) => (tally.get(what) ?? 0) === 0)).toEqual([]);
  }, 600_000);

  it(`does so in ${String(INDEXED_SEEDS)} runs on IndexedDB, and comes to the same as in memory`, async () => {
    for (let seed = FROM; seed < FROM + INDEXED_SEEDS; seed += 1) {
      const disks: IndexedDisk[] = [];
      const disk = async (name: string): Promise<IndexedDisk> => {
        const made = await IndexedDisk.of(`${name}-${String(seed)}`);
        disks.push(made);
        return made;
      };
      const ran = await run_or_tell(seed, { disk, check_every: 8 });
      const in_memory = await run(seed, tape_of(seed), { check_every: 8 });
      expect(
        ran.summary === in_memory.summary,
        `seed ${String(seed)} came to something else on IndexedDB`,
      ).toBe(true);
      for (const made of disks) await made.remove();
    }
  }, 300_000);
});
