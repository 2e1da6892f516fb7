/** Put by: what leaves the store fresh and comes back in bags, jars or crocks, in one entry. Pure. */
import type { Body, Id } from '../../ledger/index.ts';
import { day_after, DAYS_A_MONTH } from './days.ts';
import { BECOMES, type Method } from './yields.ts';
import type { Row } from '../../storekeeping/rules.ts';

export interface Putting {
  readonly lot: Id;
  readonly grams: number;
  /** On the pieces in hand: what the push judges by. */
  readonly findings: readonly string[];
  readonly method: Method;
  readonly label: string;
  readonly space: Id;
  /** Containers filled. */
  readonly containers: number;
  /** What is in them, where it was weighed again: dried goods are lighter. */
  readonly weighed: number | undefined;
  readonly keeps_until: string | undefined;
}

export function put_by_body(putting: Putting): Body {
  const { lot, grams, findings, method, label, space, containers, weighed, keeps_until } = putting;
  return {
    from: [{ lot, grams: Math.round(grams), measured: 'weighed', findings: [...findings] }],
    method,
    crop: BECOMES[method].crop,
    label,
    space,
    pack: BECOMES[method].pack,
    pieces: containers,
    ...(weighed === undefined ? {} : { grams: Math.round(weighed) }),
    ...(keeps_until === undefined ? {} : { keeps_until }),
  };
}

/** Its own clock: the shortest time it is said to keep, from today. */
export const best_before = (today: string, months: number | undefined): string | undefined =>
  months === undefined ? undefined : day_after(today, months * DAYS_A_MONTH);

/**
 * What must be said where the way is chosen: rows of kitchen_safety, the gravest first. A crop the tables do not call acid
 * is low in acid: a tested recipe under pressure, or not at all.
 */
export function said_at(
  method: Method,
  crop: string,
  acid: 'acid' | 'acidified' | undefined,
): readonly Row[] {
  const topics: Readonly<Record<Method, readonly string[]>> = {
    freeze: [
      ...(crop === 'garlic' ? ['garlic_in_oil'] : []),
      ...(crop === 'egg' ? ['eggs_freeze', 'eggs_freeze_yolk', 'eggs_freeze_cracked'] : []),
      'blanching',
      'blanching_steam',
      'knives_steam_children',
      'freeze_unsuitable',
      'freezer_loading',
      'cold_outdoors_no_freezer',
    ],
    dry: ['dried_recheck', 'dried_storage', 'stored_pests', 'vacuum_and_oil'],
    ferment: [
      ...(crop === 'egg' ? ['eggs_waterglass_lime'] : []),
      'sauerkraut_salt',
      'sauerkraut_temperature',
      'ferment_acid',
      'sauerkraut_brine',
      'mould_sauerkraut',
      'sauerkraut_store',
      'space_gas',
    ],
    jar: [
      ...(acid === 'acid' ? [] : ['canning_low_acid']),
      ...(crop === 'garlic' ? ['garlic_in_oil'] : []),
      ...(crop === 'apple' || crop === 'pear' || crop === 'quince' ? ['patulin_juice'] : []),
      'canning_suspect',
      'canning_signs',
      'vacuum_and_oil',
    ],
  };
  return topics[method].map((topic) => `kitchen_safety:${topic}`);
}
