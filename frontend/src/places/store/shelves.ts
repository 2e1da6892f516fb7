/** The store as shelves: what stands in each space, and how much there is of everything. Reactive through `house`. */
import type { ShelfLot } from '../../look/Shelf.svelte';
import { rung_of } from '../../storekeeping/ladder';
import type { LotState } from '../../storekeeping/state';
import { figures, words } from '../../words';
import { store_words } from '../../words/store';
import { share_left } from '../shared/amounts';
import { lot_href } from '../shared/finding/codes';
import { house } from '../shared/house.svelte';
import { capital, crop_name, pieces_there, stock_words } from '../shared/lot_words';
import { table_crop } from '../shared/names';
import type { Space } from '../shared/records';

export interface SpaceShelf {
  readonly space: Space;
  readonly lots: readonly ShelfLot[];
  readonly suspects: number;
  /** "2.5 °C, 93 %", as read last. */
  readonly air: string;
}

/** "Carrot", or "Carrot, box 2" where more lots of the crop stand in the same space. */
function shelf_name(lot: LotState, beside: readonly LotState[]): string {
  if (lot.label) return lot.label;
  const crop = capital(crop_name(lot.crop));
  const same = beside.filter((other) => other.crop === lot.crop);
  if (same.length < 2) return crop;
  const which = lot.spot ?? lot.variety ?? lot.code;
  return which ? `${crop}, ${which}` : crop;
}

/** "17 counted", "about 41 kg": under a drawing, pieces need no word. */
function shelf_amount(lot: LotState): string {
  const { grams } = lot.shown;
  const pieces = pieces_there(lot);
  const by_weight = house.own.figures[lot.crop]?.count_unit === 'kg';
  if (pieces === null || (by_weight && grams !== null)) return stock_words(lot);
  return words().known[lot.known](figures().pieces(pieces));
}

export function shelf_lot(lot: LotState, beside: readonly LotState[] = []): ShelfLot {
  const { rules } = house.reference;
  const crop = table_crop(lot.crop);
  const starts = rules.crops[crop]?.starts_at ?? 'raw';
  const { rung } = rung_of(rules, crop, lot.standing);
  return {
    id: lot.id,
    href: lot_href(lot.id),
    crop,
    pack: lot.pack,
    left: share_left(lot),
    name: shelf_name(lot, beside),
    amount: shelf_amount(lot),
    step: rung === starts ? undefined : rung,
    from: starts === 'raw' ? 'raw' : 'cook',
  };
}

function air_of(space: string): string {
  const { temp, percent } = figures();
  const readings = house.whole?.facts.filter(
    (fact) => fact.kind === 'reading' && (fact.body as { space?: string }).space === space,
  );
  const last = readings?.at(-1)?.body as { temp_c?: number; rh_pct?: number } | undefined;
  return [
    last?.temp_c === undefined ? '' : temp(last.temp_c),
    last?.rh_pct === undefined ? '' : percent(last.rh_pct),
  ]
    .filter(Boolean)
    .join(', ');
}

export const shelves = (): readonly SpaceShelf[] =>
  house.spaces.map((space) => {
    const lots = house.lots_in(space.id);
    return {
      space,
      lots: lots.map((lot) => shelf_lot(lot, lots)),
      suspects: house.suspects.filter((one) => house.lot(one.lot)?.space === space.id).length,
      air: air_of(space.id),
    };
  });

/** "About 450 kg in 6 spaces." from what the fold shows of every lot. */
export function everything(): string {
  const grams = house.lots.reduce((sum, lot) => sum + (lot.shown.grams ?? 0), 0);
  const used = new Set(house.lots.map((lot) => lot.space)).size;
  const spaces = words().amounts.spaces(used);
  const lots = words().amounts.lots(house.lots.length);
  return grams > 0
    ? store_words().about(figures().weight(grams), spaces)
    : store_words().counted_things(lots, spaces);
}
