/** A decision made in the middle of a walk on this phone belongs to what the walk did. */
import type { Id } from '../../ledger';
import { goOn, openWalks } from './walks';

/** The open round this suspect was kept on. */
export const walkWith = async (suspect: Id): Promise<Id | undefined> =>
  (await openWalks()).find((walk) => walk.beside.includes(suspect))?.round;

export async function decidedHere(round: Id, decision: Id, on: string): Promise<void> {
  const walking = await goOn(round);
  await walking?.decided(decision, on);
}
