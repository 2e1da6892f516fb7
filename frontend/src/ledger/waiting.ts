/** How long to wait after a failure: full jitter, `random(0, min(300 s, 2 s × 2^n))`. */
const FIRST_MS = 2_000;
const LONGEST_MS = 300_000;

export const pause_ms = (failures: number, share: number): number =>
  share * Math.min(LONGEST_MS, FIRST_MS * 2 ** Math.min(failures, 30));
