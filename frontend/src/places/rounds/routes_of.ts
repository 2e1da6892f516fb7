/** Where pieces of a lot with a finding may go, or what is cut off them. Reactive: reads `house` and the words. */
import type { LotState } from '../../storekeeping/state';
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { offerFor, partCut } from './footing';
import type { Going, Way } from './lotstep';
import { isSealed } from './ticks';
import type { Offer } from '../shared/offer';

/** On a walk nothing has been through a kitchen. What is cut off and nobody names is judged as the worst part. */
export const routesOf = (lot: LotState, finding: string, way: Way): Offer =>
  offerFor(lot, {
    findings: [finding],
    cut_in: 'store',
    ...(way === 'trim' ? { part: partCut(lot, finding) ?? 'not_known' } : {}),
  });

/** A going begins with the best that is offered; where the tables do not know, nothing is chosen for the hand. */
export function freshGoing(lot: LotState, finding: string, way: Way): Pick<Going, 'way' | 'to'> {
  const { best } = routesOf(lot, finding, way);
  return { way, ...(best === undefined ? {} : { to: best }) };
}

/** What is sealed is not opened to cut a part off. */
export const waysOf = (lot: LotState, finding: string): readonly Way[] => [
  'out',
  ...(isSealed(table_crop(lot.crop)) ? [] : (['trim'] as const)),
  ...(mayStay(lot, finding) ? (['left'] as const) : []),
];

/** What presses is not left in the lot. */
function mayStay(lot: LotState, finding: string): boolean {
  const look_for = house.reference.look_fors(table_crop(lot.crop)).find((row) => row.finding === finding);
  return look_for?.urgency !== 'now' && !house.reference.finding_spreads(finding);
}

/** A minder takes no chore on. */
export const mayClaim = (): boolean => house.writer?.role !== 'minder';
