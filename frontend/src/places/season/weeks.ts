/**
 * What to eat week by week to the new harvest: the sheets `plan/<crop>` of one day (docs/sheets.md), all crops together. Lots
 * that are gone since are left out. A sheet of another shape, of a newer server, reads as none. Pure.
 */
import type { Json, Sheet } from '../../ledger';
import { band, fields, number_of, rows, text, type Band, type Fields } from '../shared/sheet_fields';

export interface Eaten {
  readonly crop: string;
  readonly grams: number;
}
export interface Week {
  /** Its first day, and how many weeks go together. */
  readonly day: string;
  readonly weeks: number;
  readonly eaten: readonly Eaten[];
  readonly grams: number;
}
export interface Over {
  readonly lot: string;
  readonly crop: string;
  readonly grams: number;
  /** The day from which it should be put by or given away. */
  readonly day: string;
  readonly can_be_put_by: boolean;
}
export interface Held {
  readonly crop: string;
  readonly until: string;
}
export interface WeeksAhead {
  readonly made_at: string;
  readonly day: string;
  readonly weeks: readonly Week[];
  readonly over: readonly Over[];
  /** Crops of which nothing is eaten for a month, with the day they are begun. */
  readonly held: readonly Held[];
  /** Grams less lost than at an even pace. */
  readonly saved: Band;
}

/** `here`: whether a lot is still in the store. */
export function weeks_of(sheets: readonly Sheet[], here: (lot: string) => boolean): WeeksAhead | undefined {
  const told = sheets.filter((one) => one.kind === 'plan').flatMap((one) => told_by(one) ?? []);
  const day = told.reduce((newest, one) => (one.day > newest ? one.day : newest), '');
  const plans = told.filter((one) => one.day === day);
  const first = plans[0];
  if (!first) return undefined;
  return {
    made_at: first.made_at,
    day,
    weeks: together(plans.flatMap((plan) => in_portions(periods_of(plan, here)))),
    over: plans
      .flatMap((plan) => over_of(plan, here))
      .sort((a, b) => (a.day === b.day ? b.grams - a.grams : a.day < b.day ? -1 : 1)),
    held: plans.flatMap((plan) => held_of(plan) ?? []),
    saved: plans.map((plan) => plan.saved).reduce(added, [0, 0, 0]),
  };
}

interface Told {
  readonly made_at: string;
  readonly crop: string;
  readonly day: string;
  readonly saved: Band;
  readonly content: Fields;
}

function told_by({ made_at, content }: Sheet): Told | undefined {
  const told = fields(content);
  const [crop, day] = [text(told?.['crop']), text(told?.['day'])];
  if (!told || !crop || !day || !Array.isArray(told['weeks'])) return undefined;
  return { made_at, crop, day, saved: band(told['saved']) ?? [0, 0, 0], content: told };
}

const added = (a: Band, b: Band): Band => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

interface Period {
  readonly day: string;
  readonly weeks: number;
  readonly crop: string;
  readonly grams: number;
}

const periods_of = ({ crop, content }: Told, here: (lot: string) => boolean): readonly Period[] =>
  rows(content['weeks']).map((row) => ({
    day: text(row['day']),
    weeks: number_of(row['weeks']) ?? 1,
    crop,
    grams: lots_of(row['lots'], here).reduce((sum, one) => sum + one.grams, 0),
  }));

/** Less than this of a crop is no dish for a household: it waits for the next week. Ours. */
const LEAST_GRAMS = 1000;

/** Small weekly amounts put together to a dish every few weeks; what is left over goes with the weeks after. */
function in_portions(periods: readonly Period[]): readonly Period[] {
  let waiting = 0;
  return periods.map((one) => {
    const there = waiting + one.grams;
    const eaten = one.weeks > 1 || there >= LEAST_GRAMS ? there : 0;
    waiting = there - eaten;
    return { ...one, grams: eaten };
  });
}

const lots_of = (value: Json | undefined, here: (lot: string) => boolean) =>
  rows(value)
    .map((row) => ({ lot: text(row['lot']), grams: number_of(row['grams']) ?? 0, day: text(row['day']) }))
    .filter(({ lot, grams }) => grams > 0 && here(lot));

/** By day; in each the crop of which most is eaten first. Crops whose plans end sooner are in no later week. */
function together(periods: readonly Period[]): readonly Week[] {
  const days = [...new Set(periods.map(({ day }) => day))].sort();
  return days
    .map((day) => {
      const of_day = periods.filter((one) => one.day === day);
      const eaten = of_day.filter(({ grams }) => grams > 0).sort((a, b) => b.grams - a.grams);
      return {
        day,
        weeks: Math.max(...of_day.map((one) => one.weeks)),
        eaten: eaten.map(({ crop, grams }) => ({ crop, grams })),
        grams: eaten.reduce((sum, one) => sum + one.grams, 0),
      };
    })
    .filter(({ grams }) => grams > 0);
}

const over_of = ({ crop, content }: Told, here: (lot: string) => boolean): readonly Over[] =>
  lots_of(content['surplus'], here).map((one) => ({
    ...one,
    crop,
    can_be_put_by: content['can_be_put_by'] === true,
  }));

/** Held back is a crop of which no lot is eaten before. */
function held_of({ crop, content }: Told): Held | undefined {
  const begun = rows(content['weeks']).find((row) => rows(row['lots']).length > 0);
  const day = text(begun?.['day']);
  const until = rows(content['hold']).map((row) => text(row['until']));
  return day && until.includes(day) ? { crop, until: day } : undefined;
}
