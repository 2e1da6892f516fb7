/** What the form for what is out turned away, until the accident's page has written it. Gone when the app is closed. */
import type { TurnedAway } from './outing';

class Turned {
  told = $state.raw<(TurnedAway & { readonly group: string | undefined }) | undefined>();
}

export const turned_away = new Turned();
