/** Where a suspect waits: dry and firm it is held where it lies, wet, furry or smelling it is set apart. Pure. */

export interface AboutFinding {
  /** `kind` in the table of findings. */
  readonly kind: (finding: string) => string | undefined;
  readonly spreads: (finding: string) => boolean;
}

export type Lies = 'held' | 'set_apart';

/** Of the kind `rot`, yet dry to the touch. */
const DRY = new Set(['dry_rot']);
/** Of another kind, yet wet, or walking. */
const WET = new Set(['wet', 'frosted', 'thawed', 'mealy']);

const apart = (finding: string, about: AboutFinding): boolean =>
  about.spreads(finding) || WET.has(finding) || (about.kind(finding) === 'rot' && !DRY.has(finding));

export interface Advice {
  readonly lies: Lies;
  /** The finding that decides it; absent where nobody could say what it is. */
  readonly because?: string;
  /** Whoever holds it may choose otherwise: nothing about it is wet, furry or smelling. */
  readonly free: boolean;
}

/** Nobody can say: apart is the careful way, but the choice is theirs. */
export function lieAdvice(findings: readonly string[], about: AboutFinding): Advice {
  const told = findings.filter((finding) => finding !== 'unsure');
  const because = told.find((finding) => apart(finding, about));
  if (because !== undefined) return { lies: 'set_apart', because, free: false };
  return { lies: told.length > 0 ? 'held' : 'set_apart', free: true };
}

/** What was chosen by hand holds where there is a choice. */
export const liesNow = (chosen: Lies | undefined, advice: Advice): Lies =>
  advice.free ? (chosen ?? advice.lies) : advice.lies;
