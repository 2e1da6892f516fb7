/** The use ladder as drawn and as a form. */
import { STEPS, type Step } from '../storekeeping/rules';

export { STEPS, type Step };

/** One row of the ladder as a form. What is not offered is a short row with its reason. */
export interface RungRow {
  readonly step: Step;
  /** Which row it is, when a step stands more than once (two animal groups); the step itself when absent. */
  readonly key?: string;
  readonly word?: string;
  readonly soft?: string;
  readonly offered: boolean;
  readonly reason?: string;
}

export const rowKey = (row: RungRow): string => row.key ?? row.step;

/** Where rung number `index` (0 is raw) stands in the drawing of 26 x 40. */
export const rungHeight = (index: number): number => 4.5 + 6 * index;
