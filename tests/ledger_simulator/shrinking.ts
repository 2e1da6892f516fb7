/** The shortest tape that still fails, for whoever mends it. */
import fc from 'fast-check';
import { run, type Options, type Step, type Tape } from './simulation.ts';

const word = fc.integer({ min: 0, max: 2 ** 32 - 1 });
const tapes = fc.array(fc.tuple(word, word), { maxLength: 400 });

export async function shrink(seed: number, tape: Tape, options: Options): Promise<Tape> {
  const fails = (steps: readonly Step[]): Promise<boolean> =>
    run(seed, steps, options).then(
      () => false,
      () => true,
    );
  return simplest(await without_parts(tape, fails), fails);
}

type Fails = (steps: readonly Step[]) => Promise<boolean>;

/** Leaves out ever smaller parts as long as it fails without them. */
async function without_parts(tape: Tape, fails: Fails): Promise<Tape> {
  let left = tape;
  for (let size = left.length >> 1; size >= 1; size >>= 1) {
    for (let from = 0; from < left.length;) {
      const shorter = [...left.slice(0, from), ...left.slice(from + size)];
      if (await fails(shorter)) left = shorter;
      else from += size;
    }
  }
  return left;
}

/** The rest is fast-check's: fewer steps once more, and smaller numbers in them. */
async function simplest(tape: Tape, fails: Fails, most_runs = 300): Promise<Tape> {
  let runs = 0;
  const property = fc.asyncProperty(tapes, async (steps) => (runs += 1) > most_runs || !(await fails(steps)));
  const given = tape.map(([what, details]): [number, number] => [what, details]);
  const found = await fc.check(property, { examples: [[given]], numRuns: 1 });
  return found.counterexample?.[0] ?? tape;
}
