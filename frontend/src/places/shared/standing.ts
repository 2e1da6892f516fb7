/** Standing chores of the household that fall on a day. Pure. */
import type { Body, Id, RecordNow } from '../../ledger/index.ts';

export interface StandingChore {
  /** `<record>/<day>`. */
  readonly key: string;
  readonly name: string;
  readonly doer?: Id;
  readonly minutes?: number;
  readonly day: string;
  /** `HH:MM`. */
  readonly at?: string;
}

export const numbers = (value: Body[string] | undefined): readonly number[] =>
  Array.isArray(value) ? value.filter((one): one is number => typeof one === 'number') : [];

/** ISO 8601: 1 Monday to 7 Sunday. */
const weekdayOf = (day: string): number => new Date(`${day}T12:00:00Z`).getUTCDay() || 7;

/** From November to March goes over the new year. */
function inMonths(values: Body, month: number): boolean {
  const from = typeof values['from_month'] === 'number' ? values['from_month'] : 1;
  const to = typeof values['to_month'] === 'number' ? values['to_month'] : 12;
  return from <= to ? month >= from && month <= to : month >= from || month <= to;
}

export function standingOn(day: string, records: readonly RecordNow[]): readonly StandingChore[] {
  return records
    .filter(({ type, values }) => type === 'chore' && values['archived'] !== true)
    .filter(({ values }) => {
      if (typeof values['on'] === 'string') return values['on'] === day;
      const weekdays = numbers(values['weekdays']);
      return (
        (weekdays.length === 0 || weekdays.includes(weekdayOf(day))) &&
        inMonths(values, Number(day.slice(5, 7)))
      );
    })
    .map(({ id, values }) => ({
      key: `${id}/${day}`,
      name: typeof values['name'] === 'string' ? values['name'] : '',
      day,
      ...(typeof values['doer'] === 'string' ? { doer: values['doer'] } : {}),
      ...(typeof values['minutes'] === 'number' ? { minutes: values['minutes'] } : {}),
      ...(typeof values['at'] === 'string' ? { at: values['at'] } : {}),
    }));
}
