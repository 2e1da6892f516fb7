/**
 * Clocks of what does not show its age: eggs, nuts, what was put by. How a thing lies decides how long it keeps; where nobody
 * said, the shorter time holds. Pure.
 */
import type { KitchenReference } from '../../reference/index.ts';
import type { Row } from '../../storekeeping/rules.ts';
import type { LotState } from '../../storekeeping/state.ts';
import { day_after } from './days.ts';

export interface Clock {
  readonly lot: string;
  /** The last day it is said to keep. */
  readonly ends: string;
  /** How it lies, as the tables name it; undefined where its own clock was set when it was put by. */
  readonly lies: string | undefined;
  readonly days: number | undefined;
  readonly rows: readonly Row[];
}

type Kept = Pick<LotState, 'id' | 'put_away_day' | 'pack' | 'keeps_until'>;

const COLD: readonly string[] = ['cold_room'];
const COOL: readonly string[] = ['cold_room', 'root_cellar', 'clamp'];
const WARM: readonly string[] = ['spare_room', 'other', ''];
/** Air comes through: nobody keeps shelled nuts so. */
const IN_SHELL: readonly string[] = ['in_shell', 'net', 'hung', 'tray', 'crate', 'open_shelf'];
const NUTS: readonly string[] = ['walnut', 'hazelnut', 'almond'];

/** The condition of the tables that a lot lies in; undefined: the tables keep no clock for the crop. */
export function how_it_lies(crop: string, pack: string | null, space_kind: string): string | undefined {
  const cool = COOL.includes(space_kind);
  if (space_kind === 'freezer' && (crop === 'egg' || NUTS.includes(crop))) return 'frozen';
  if (crop === 'egg') return pack === 'crock' ? 'lime_water' : cool ? 'cool_moist' : 'room';
  if (NUTS.includes(crop) && IN_SHELL.includes(pack ?? '')) return cool ? 'in_shell_cool' : 'in_shell_room';
  if (NUTS.includes(crop)) return COLD.includes(space_kind) ? 'shelled_fridge' : 'shelled_room';
  if (crop === 'dried') return WARM.includes(space_kind) ? 'room' : 'cool_dry';
  return { chestnut: 'cold_moist', jar: 'cool_dry', ferment: 'cold_moist', frozen: 'frozen' }[crop];
}

/** `crop`: of the tables; `own_row`: the row its own clock was taken from, where it has one. */
export function clock_of(
  clocks: KitchenReference['clocks'],
  lot: Kept,
  crop: string,
  space_kind: string,
  own_row?: Row,
): Clock | undefined {
  if (lot.keeps_until !== null)
    return {
      lot: lot.id,
      ends: lot.keeps_until,
      lies: undefined,
      days: undefined,
      rows: own_row ? [own_row] : [],
    };
  const lies = how_it_lies(crop, lot.pack, space_kind);
  const told = lies === undefined ? undefined : clocks[crop]?.[lies];
  if (told === undefined) return undefined;
  const [days, row] = told;
  return { lot: lot.id, ends: day_after(lot.put_away_day, days), lies, days, rows: [row] };
}

/** The nearest end first. */
export const by_end = (a: Clock, b: Clock): number =>
  a.ends.localeCompare(b.ends) || a.lot.localeCompare(b.lot);

export interface LaidBefore {
  readonly lies: 'room' | 'fridge';
  readonly days: number;
  /** Eggs laid on this day or before are past it. */
  readonly day: string;
  readonly row: Row;
}

/** By lay day: what is past its time in a room, and in the cold. */
export const laid_before = (clocks: KitchenReference['clocks'], today: string): readonly LaidBefore[] =>
  (['room', 'fridge'] as const).flatMap((lies) => {
    const told = clocks['egg']?.[lies];
    return told ? [{ lies, days: told[0], day: day_after(today, -told[0] - 1), row: told[1] }] : [];
  });
