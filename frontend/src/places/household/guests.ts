/** Guests with their days: those who come or are here; past ones only stand in the book. */
import type { Id } from '../../ledger';
import { figures } from '../../words';
import { household_words } from '../../words/household';
import { house } from '../shared/house.svelte';
import { numeric, text } from '../shared/records';

export interface Guests {
  readonly id: Id;
  readonly number: number;
  /** First and last day at table. */
  readonly from: string;
  readonly until: string;
}

export const coming_guests = (): readonly Guests[] =>
  house.records
    .filter((record) => record.type === 'guests' && record.values['archived'] !== true)
    .map(({ id, values }) => ({
      id,
      number: numeric(values['number']) ?? 0,
      from: text(values['from']),
      until: text(values['until']),
    }))
    .filter((guests) => guests.until >= house.today)
    .sort((a, b) => (a.from < b.from ? -1 : 1));

/** "23 January to 25 January", or the one day. */
export const guest_days = ({ from, until }: Guests): string =>
  from === until
    ? figures().day(from)
    : household_words().table.days(figures().day(from), figures().day(until));
