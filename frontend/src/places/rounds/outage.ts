/** The power cut as this phone has it written: kept as a draft, no entry; gone when the power is back. */
import { house } from '../shared/house.svelte';
import { beginOutage, POWER_DRAFT, readOutage, type Outage } from './power';

export const outageNow = async (): Promise<Outage | undefined> =>
  readOutage((await house.ledger.drafts.get(POWER_DRAFT.id))?.value);

export async function keepOutage(outage: Outage): Promise<void> {
  await house.ledger.drafts.put({ ...POWER_DRAFT, value: { ...outage } });
}

/** As it is written, else as of now. */
export async function openOutage(): Promise<Outage> {
  const known = await outageNow();
  if (known) return known;
  const begun = beginOutage(new Date());
  await keepOutage(begun);
  return begun;
}

export const endOutage = (): Promise<void> => house.ledger.drafts.drop(POWER_DRAFT.id);
