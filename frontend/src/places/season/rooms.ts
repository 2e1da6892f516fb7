/** The air of each space as it was read last. Facts need not be in order. Pure. */
import type { BodyOf } from '../../storekeeping/shapes';
import type { Fact } from '../../storekeeping/state';

export interface Air {
  readonly when_ms: number;
  readonly body: BodyOf<'reading'>;
}

export function last_readings(facts: readonly Fact[]): ReadonlyMap<string, Air> {
  const last = new Map<string, Air>();
  for (const { kind, when_ms, body } of facts) {
    if (kind !== 'reading') continue;
    const reading = body as BodyOf<'reading'>;
    const known = last.get(reading.space);
    if (!known || known.when_ms < when_ms) last.set(reading.space, { when_ms, body: reading });
  }
  return last;
}
