/** What the household has set about feeding, as the ladder and the feed rules ask it. Reactive: they read `house`. */
import type { Id } from '../../ledger';
import type { Group, Law } from '../../storekeeping/rules';
import { house } from './house.svelte';
import { text, texts } from './records';

/** A group of animals that may be offered something. */
export interface Feedable extends Group {
  readonly id: Id;
  readonly name: string;
  readonly withheld: boolean;
  readonly housed: boolean;
}

/** Groups there are; one under treatment gets nothing up to its last day. */
export const feedable_groups = (): readonly Feedable[] =>
  house.animals.map(({ id, name, kind, values }) => {
    const until = text(values['withheld_until']);
    return {
      id,
      name,
      kind,
      withheld: values['withheld'] === true || (until !== '' && house.today <= until),
      housed: values['housed'] === true,
    };
  });

/** Nothing set is the strict start. */
export function household_law(): Law {
  const values = house.household?.values ?? {};
  return {
    country: text(values['country']) || null,
    confirmed: values['law_confirmed'] === true,
    kitchen_to: texts(values['kitchen_to']),
    housing_order: values['housing_order'] === true,
  };
}

/** Who at table makes cautions stricter: `small_child`, `pregnant` ... */
export const household_eaters = (): readonly string[] => texts(house.household?.values['eaters']);
