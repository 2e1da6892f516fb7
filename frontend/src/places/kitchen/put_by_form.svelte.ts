/** A put-by being set: how much, how, and what comes of it. Numbers the tables give stand until a hand sets others. */
import type { Body, Id } from '../../ledger';
import { figures } from '../../words';
import { put_by_body } from './put_by';
import type { Method } from './yields';

export class PutByForm {
  /** Fresh weight in the unit shown. */
  shown = $state(0);
  method = $state<Method | undefined>();
  containers = $state(1);
  /** Of what was dried, in the unit shown; 0: not weighed. */
  weighed = $state(0);
  label = $state('');
  space = $state<Id | undefined>();
  keeps_until = $state<string | undefined>();
  /** A hand set it: what the tables say no longer does. */
  set_by_hand = $state(false);

  readonly grams = $derived(figures().grams(this.shown));

  /** Undefined while something is missing. */
  body(lot: Id, findings: readonly string[]): Body | undefined {
    const { grams, method, label, space, containers, weighed, keeps_until } = this;
    if (method === undefined || space === undefined || label === '') return undefined;
    return put_by_body({
      lot,
      grams,
      findings,
      method,
      label,
      space,
      containers,
      weighed: weighed > 0 ? figures().grams(weighed) : undefined,
      keeps_until,
    });
  }
}
