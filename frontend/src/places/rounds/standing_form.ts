/** The form of a standing chore: a record's fields as a hand sets them, and back. Pure. */
import type { Body } from '../../ledger/index.ts';
import { numeric, text, texts } from '../shared/records.ts';
import { numbers } from '../shared/standing.ts';

export const USUAL = ['feed', 'water', 'eggs', 'shut_in', 'ice', 'another'] as const;
export type Usual = (typeof USUAL)[number];
export const NEEDS = ['ladder', 'knife', 'lifting', 'not_alone'] as const;
export type Need = (typeof NEEDS)[number];
/** ISO 8601: 1 Monday to 7 Sunday. */
export const WEEK = ['1', '2', '3', '4', '5', '6', '7'] as const;
type Weekday = (typeof WEEK)[number];

export interface StandingForm {
  name: string;
  animals: string;
  weekdays: readonly Weekday[];
  from_month: string;
  to_month: string;
  at: string;
  minutes: number;
  by_children: boolean;
  least_age: number;
  needs: readonly Need[];
  doer: string;
  space: string;
  note: string;
  photo: string;
  archived: boolean;
}

/** Where nobody said. [min], [years] Ours, no source. */
const USUAL_MINUTES = 10;
const CHILDRENS_AGE = 5;

const shown = (value: number | undefined): string => (value === undefined ? '' : String(value));

export const filled = (values: Body): StandingForm => ({
  name: text(values['name']),
  animals: text(values['animals']),
  weekdays: WEEK.filter((day) => numbers(values['weekdays']).includes(Number(day))),
  from_month: shown(numeric(values['from_month'])),
  to_month: shown(numeric(values['to_month'])),
  at: text(values['at']),
  minutes: numeric(values['minutes']) ?? USUAL_MINUTES,
  by_children: numeric(values['least_age']) !== undefined,
  least_age: numeric(values['least_age']) ?? CHILDRENS_AGE,
  needs: NEEDS.filter((need) => texts(values['needs']).includes(need)),
  doer: text(values['doer']),
  space: text(values['space']),
  note: text(values['note']),
  photo: text(values['photo']),
  archived: values['archived'] === true,
});

/** Fields to be kept; what is empty and was never set is left out. A season is told by both its months. */
export function chore_fields(form: StandingForm, before: Body): Body {
  const season = form.from_month !== '' && form.to_month !== '';
  const told: Readonly<Record<string, Body[string]>> = {
    name: form.name.trim(),
    animals: form.animals || null,
    weekdays: form.weekdays.map(Number).sort((a, b) => a - b),
    from_month: season ? Number(form.from_month) : null,
    to_month: season ? Number(form.to_month) : null,
    at: form.at || null,
    minutes: form.minutes || null,
    least_age: form.by_children ? form.least_age : null,
    needs: [...form.needs],
    doer: form.doer || null,
    space: form.space || null,
    note: form.note.trim() || null,
    photo: form.photo || null,
    archived: form.archived,
  };
  const empty = (value: Body[string] | undefined): boolean =>
    value === undefined || value === null || value === false || (Array.isArray(value) && value.length === 0);
  return Object.fromEntries(
    Object.entries(told).filter(([name, value]) => !empty(value) || !empty(before[name])),
  );
}
