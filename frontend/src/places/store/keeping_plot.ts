/** How a lot keeps, as shapes in a box of WIDTH by HEIGHT: from put-away on, 100 at the top, 0 at the foot. Pure. */
import { area, line } from 'd3-shape';
import type { Band } from '../shared/sheet_fields';
import { days_from, days_on } from './curing';
import { STEP_DAYS, type Keeping } from './lot_keeping';

export const WIDTH = 354;
export const HEIGHT = 120;
/** What is left under this is not worth the room. [of 100] */
const HARDLY_ANY = 3;
const LEAST_STEPS = 3;
const MOST_MONTHS = 5;

interface Point {
  readonly x: number;
  readonly week: Band;
}
export interface Mark {
  readonly x: number;
  readonly y: number;
}
export interface Shapes {
  readonly days: number;
  readonly band: string;
  readonly likeliest: string;
  readonly rings: readonly Mark[];
  /** What is sound now: where, and from how few to how many. */
  readonly now: { readonly x: number; readonly low: number; readonly high: number };
  /** First days of months, and how far along they are, 0 to 1. */
  readonly months: readonly { readonly day: string; readonly at: number }[];
}

/** Until hardly any is expected, and past today. */
function steps_shown({ curve, from, day }: Keeping): number {
  const gone = curve.findIndex(([, , high]) => high < HARDLY_ANY);
  const today = Math.ceil(days_from(from, day) / STEP_DAYS) + 1;
  return Math.min(curve.length - 1, Math.max(gone < 0 ? curve.length : gone, today, LEAST_STEPS));
}

export function shapes_of(keeping: Keeping): Shapes {
  const steps = steps_shown(keeping);
  const days = steps * STEP_DAYS;
  const x = (day: number): number => (Math.min(Math.max(day, 0), days) / days) * WIDTH;
  const y = (of_100: number): number => HEIGHT * (1 - of_100 / 100);
  const points: Point[] = keeping.curve.slice(0, steps + 1).map((week, i) => ({ week, x: x(i * STEP_DAYS) }));
  const on = (day: string): number => x(days_from(keeping.from, day));
  return {
    days,
    band:
      area<Point>(
        (p) => p.x,
        (p) => y(p.week[0]),
        (p) => y(p.week[2]),
      )(points) ?? '',
    likeliest:
      line<Point>(
        (p) => p.x,
        (p) => y(p.week[1]),
      )(points) ?? '',
    rings: keeping.rings.map((ring) => ({ x: on(ring.day), y: y(ring.share) })),
    now: { x: on(keeping.day), low: y(keeping.sound[0]), high: y(keeping.sound[2]) },
    months: months_of(keeping.from, days),
  };
}

function months_of(from: string, days: number): Shapes['months'] {
  const all = Array.from({ length: days }, (_, i) => ({ day: days_on(from, i + 1), at: (i + 1) / days }));
  const months = all.filter(({ day, at }) => day.endsWith('-01') && at > 0.05 && at < 0.95);
  const every = Math.ceil(months.length / MOST_MONTHS);
  return months.filter((_, i) => i % every === 0);
}
