/** Days and seasons of a standing chore in words. Reactive: reads the words. */
import type { Body } from '../../ledger';
import { figures } from '../../words';
import { chore_pages_words } from '../../words/chore_pages';
import { numeric, text } from '../shared/records';
import { numbers } from '../shared/standing';

/** 1 January 2024 was a Monday. */
const weekday_at = (iso: number): Date => new Date(Date.UTC(2024, 0, iso, 12));
const month_at = (month: number): Date => new Date(Date.UTC(2024, month - 1, 15, 12));

export const weekday_word = (iso: number): string => figures().short_weekday(weekday_at(iso));
export const month_word = (month: number): string => figures().month(month_at(month));

export function days_words(values: Body): string {
  const on = text(values['on']);
  if (on) return figures().day(on);
  const days = numbers(values['weekdays']);
  return days.length === 0 || days.length === 7
    ? chore_pages_words().standing.every
    : figures().list([...days].sort((a, b) => a - b).map(weekday_word));
}

export function season_words(values: Body): string {
  const [from, to] = [numeric(values['from_month']), numeric(values['to_month'])];
  return from === undefined || to === undefined
    ? ''
    : chore_pages_words().standing.from_to(month_word(from), month_word(to));
}
