/** How many sit at table: those of a usual day and the guests of the day asked about. Reactive: it reads `house`. */
import { house } from './house.svelte';
import { numeric, text } from './records';

export const usual_at_table = (): number =>
  numeric(house.household?.values['at_table']) ?? Math.max(1, house.people.length);

export const guests_on = (day: string): number =>
  house.records
    .filter(
      ({ type, values }) =>
        type === 'guests' &&
        values['archived'] !== true &&
        text(values['from']) <= day &&
        day <= text(values['until']),
    )
    .reduce((sum, { values }) => sum + (numeric(values['number']) ?? 0), 0);

export const at_table_on = (day: string): number => usual_at_table() + guests_on(day);
