/** What of this household's store will not be eaten in time. Reactive: it reads `house`. */
import { house } from '../shared/house.svelte';
import { since } from '../shared/since';
import { surplus_of, type Surplus } from './surplus';

export const surplus_now = (): readonly Surplus[] =>
  surplus_of(house.sheets, (id, as_of) => {
    const lot = house.lot(id);
    return !lot || lot.finished ? 0 : Math.max(0, since(lot, as_of, house.held).share);
  });
