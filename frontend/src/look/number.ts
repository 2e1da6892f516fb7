/** The arithmetic of a stepper: bounds, steps without binary dust, and numbers typed with a comma or a point. */
export interface Bounds {
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

/** Rounded to the third decimal: all the ledger keeps. */
const clean = (n: number): number => Math.round(n * 1000) / 1000;

export const within = (n: number, { min, max }: Bounds): number => clean(Math.min(max, Math.max(min, n)));

/** The next value up or down; a value between steps goes to the nearest step in that direction. */
export function stepped(n: number, by: 1 | -1, bounds: Bounds): number {
  const at = clean((n - bounds.min) / bounds.step);
  const next = by > 0 ? Math.floor(at) + 1 : Math.ceil(at) - 1;
  return within(bounds.min + next * bounds.step, bounds);
}

/** What a person typed, or undefined when it is no number. "2,5", "2.5", "−3" and "1 200" are read. */
export function typedNumber(text: string): number | undefined {
  const plain = text
    .trim()
    .replace(/[\s\u00a0\u202f']/g, '')
    .replace('−', '-')
    .replace(',', '.');
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(plain)) return undefined;
  return clean(Number(plain));
}
