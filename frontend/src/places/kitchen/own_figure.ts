/** A household's own figure beside the published one. Reactive: it reads `house`. */
import { house } from '../shared/house.svelte';
import { numeric, text } from '../shared/records';

/** Undefined where the household has none of its own. */
export function own_figure(table: string, key: string, column: string): number | undefined {
  const record = house.records.find(
    ({ type, values }) =>
      type === 'figure' &&
      values['archived'] !== true &&
      text(values['table']) === table &&
      text(values['key']) === key &&
      text(values['column']) === column,
  );
  return numeric(record?.values['value']);
}
