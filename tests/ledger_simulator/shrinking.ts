/** The shortest tape that still fails, for whoever mends it. */
import fc from 'fast-check';
import { run, type Options, type Step, type Tape } from './simulation.ts';

const word = fc.nat(2 ** 31 - 1);
const tapes = fc.array(fc.tuple(word, word), { maxLength: 400 });

export async function shrink(seed: number, tape: Tape, options: Options, most_runs = 400): Promise<Tape> {
  const given = tape.map(([what, details]): [number, number] => [what >>> 1, details >>> 1]);
  let left = most_runs;
  const holds = async (steps: readonly Step[]): Promise<boolean> => {
    if (left <= 0) return true;
    left -= 1;
    return run(seed, steps, options).then(
      () => true,
      () => false,
    );
  };
  const found = await fc.check(fc.asyncProperty(tapes, holds), {
    examples: [[given]],
    numRuns: 1,
    endOnFailure: false,
  });
  return found.counterexample?.[0] ?? tape;
}
