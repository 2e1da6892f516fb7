/** What every lot may be called, for finding it. Reactive through `house` and the words. */
import type { Reference } from '../../../reference';
import { rung_of } from '../../../storekeeping/ladder';
import type { LotState } from '../../../storekeeping/state';
import { words } from '../../../words';
import { finding_words } from '../../../words/finding';
import { house } from '../house.svelte';
import { crop_name } from '../lot_words';
import { space_name, table_crop } from '../names';
import { findable, type Findable } from './search';

export interface LotToFind extends Findable {
  readonly lot: LotState;
}

/** The rung a lot has come down to: "cook"; '' where it stands where it began. */
function step_word(lot: LotState): string {
  const { rules } = house.reference;
  const crop = table_crop(lot.crop);
  const { rung } = rung_of(rules, crop, lot.standing);
  return rung === undefined || rung === (rules.crops[crop]?.starts_at ?? 'raw') ? '' : words().steps[rung];
}

/** How it is with a lot, in the words a person would type. */
function states_of(lot: LotState, tongues: readonly Reference[]): readonly string[] {
  const say = finding_words().states;
  if (lot.finished) return [say.finished];
  return [
    step_word(lot),
    ...lot.standing.flatMap(({ finding }) => tongues.map((tongue) => tongue.finding_name(finding))),
    lot.curing ? say.curing : '',
    lot.suspects.some((one) => one.state === 'open') ? say.suspect : '',
    lot.seed.pieces || lot.seed.grams ? say.seed : '',
    lot.asks_count ? words().known.count_it : '',
  ];
}

/** Every lot, with its names in the tables of all `tongues`; those that stand before those that are gone. */
export function lots_to_find(tongues: readonly Reference[]): readonly LotToFind[] {
  const rows = house.all_lots.map((lot) => ({
    lot,
    ...findable(
      lot.id,
      [
        crop_name(lot.crop),
        ...tongues.map((tongue) => tongue.crop_name(lot.crop)),
        lot.variety,
        lot.label,
        space_name(lot.space),
        lot.spot,
        lot.pack ? house.reference.pack_name(lot.pack) : '',
        ...states_of(lot, tongues),
      ],
      lot.code,
    ),
  }));
  return [...rows.filter((row) => !row.lot.finished), ...rows.filter((row) => row.lot.finished)];
}
