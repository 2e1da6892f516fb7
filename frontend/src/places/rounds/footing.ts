/** The household as a walk needs it: what `house` and the tables know, handed to the pure models. Reactive. */
import type { Id } from '../../ledger';
import type { LookingOverHow } from '../../reference';
import type { Question } from '../../storekeeping/rules';
import type { LotState } from '../../storekeeping/state';
import { offer_of_lot, part_cut as partCut } from '../shared/asking';
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { setting_of } from '../shared/setting';
import type { Signs } from './deciding';
import type { AboutFinding } from './lies';
import type { Offer } from '../shared/offer';
import { rosterOf } from './roster';
import type { Underfoot } from './walk';
import { lookPlan, type LookPlan } from './sample';
import type { Walk } from './draft';
import type { Footing } from './walking.svelte';

export { finding_words, findings_list, part_cut as partCut } from '../shared/asking';

export const howToLook = (crop: string): LookingOverHow | null =>
  house.reference.looking_over(table_crop(crop));

export const planOf = (lot: Id): LookPlan => {
  const state = house.lot(lot);
  return lookPlan((state && howToLook(state.crop)) ?? undefined, state?.shown.pieces ?? undefined);
};

export const underfoot = (walks: readonly Walk[]): Underfoot => ({
  today: house.today,
  hemisphere: setting_of(house.household, house.records, house.reference.figures).hemisphere,
  rules: { ...house.reference.rules, looking_over: house.own.looking_over },
  crop_of: (lot) => table_crop(lot.crop),
  looking_over: howToLook,
  spreads: (finding) => house.reference.finding_spreads(finding),
  lots: house.lots,
  spaces: house.spaces,
  roster: rosterOf(house.sheets, house.whole?.claims ?? {}, house.whole?.offers ?? {}),
  walks,
});

/** Small children photograph and do chores; they do not look lots over. */
export const mayWalk = (): boolean => house.writer?.role !== 'child';

/** Decisions: adults, and an older child whose switch says so. */
export const mayDecide = (): boolean =>
  house.is_grown || (house.writer?.role === 'rounds' && house.writer.may_decide);

export const aboutFinding: AboutFinding = {
  kind: (finding) => house.reference.rules.findings[finding]?.kind,
  spreads: (finding) => house.reference.finding_spreads(finding),
};

/** The same, and how soon this crop's finding is to be acted on. */
export const signsOf = (lot: LotState): Signs => {
  const look_fors = house.reference.look_fors(table_crop(lot.crop));
  return { ...aboutFinding, urgency: (finding) => look_fors.find((row) => row.finding === finding)?.urgency };
};

/** The ladder for a piece of a lot. */
export const offerFor = (lot: LotState, question: Pick<Question, 'findings' | 'part' | 'cut_in'>): Offer =>
  offer_of_lot(lot, question);

const nextDay = (day: string): string => {
  const next = new Date(`${day}T12:00:00Z`);
  next.setUTCDate(next.getUTCDate() + 1);
  return next.toISOString().slice(0, 10);
};

export const tomorrow = (): string => nextDay(house.today);

export const footing = (): Footing => ({
  ledger: house.ledger,
  plan: planOf,
  left: (id) => {
    const shown = house.lot(id)?.shown;
    return {
      ...(shown?.pieces == null ? {} : { pieces: shown.pieces }),
      ...(shown?.grams == null ? {} : { grams: shown.grams }),
    };
  },
  part_cut: (id, finding) => {
    const lot = house.lot(id);
    return lot && partCut(lot, finding);
  },
  may_write_stock: () => house.is_grown || house.writer?.role === 'rounds',
  now: () => new Date().toISOString(),
  tomorrow,
});
