/**
 * Prints the requests of seeded runs and the model's answers, one JSON text a run and line:
 *
 *     node --import ./bare_imports.js export_schedules.ts <first seed> <how many>
 */
import { Recording } from './recording.ts';
import { run, tape_of } from './simulation.ts';

/** As many as a run must have at least: the real server is slower than the model. */
const STEPS = 70;

const [first = '1', count = '50'] = process.argv.slice(2);

for (let seed = Number(first); seed < Number(first) + Number(count); seed += 1) {
  const recording = new Recording();
  await run(seed, tape_of(seed).slice(0, STEPS), { recording, plain: true });
  const { household, founding, devices, events } = recording;
  process.stdout.write(`${JSON.stringify({ seed, household, founding, devices, events })}\n`);
}
