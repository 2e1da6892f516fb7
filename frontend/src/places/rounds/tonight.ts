/** What must be done today before dark: from the sheet, from standing chores of the evening, from a reading near frost. Pure. */
import type { Id, RecordNow } from '../../ledger/index.ts';
import type { BodyOf } from '../../storekeeping/shapes.ts';
import type { Fact, FoldState } from '../../storekeeping/state.ts';
import type { ChoreSheet } from '../shared/chore_sheet.ts';
import { standingOn } from '../shared/standing.ts';
import { whose } from '../shared/whose.ts';

export interface Tonight {
  readonly key: string;
  /** `frost_near`: no chore of anybody's, but what the dials showed. */
  readonly what: 'chore' | 'vent' | 'air' | 'frost' | 'shut_in' | 'frost_near';
  readonly name: string;
  readonly space?: Id;
  readonly at: string;
  readonly doer?: Id;
  /** What the coldest dial showed. [°C] */
  readonly temp_c?: number;
}

/** From this hour on a standing chore is one of the evening. Ours, no source. */
const EVENING = '15:00';
/** A space this cold, read today or yesterday, is near frost by night. As the words at the dial. [°C] */
export const NEAR_FROST = 1;
const NIGHTS = ['vent', 'air', 'frost', 'shut_in'] as const;

const named = (what: string): Tonight['what'] => NIGHTS.find((one) => one === what) ?? 'chore';

interface Known {
  readonly sheet: ChoreSheet;
  readonly records: readonly RecordNow[];
  readonly whole: Pick<FoldState, 'claims' | 'offers' | 'chores_done' | 'facts'>;
  /** Spaces that hold something frost would harm. */
  readonly holds: ReadonlySet<Id>;
  readonly today: string;
}

export function tonight_of({ sheet, records, whole, holds, today }: Known): readonly Tonight[] {
  const asked = sheet.asked
    .filter((one) => one.tonight && one.day <= today && one.latest >= today)
    .map((one): Tonight => {
      const doer = whose(whole, one.key, one.who);
      return {
        key: one.key,
        what: named(one.what),
        name: one.name,
        at: one.at,
        ...(one.space ? { space: one.space } : {}),
        ...(doer ? { doer } : {}),
      };
    });
  const known = new Set(asked.map(({ key }) => key));
  const standing = standingOn(today, records)
    .filter(({ at, key }) => at !== undefined && at >= EVENING && !known.has(key))
    .map((one): Tonight => {
      const told = sheet.asked.find(({ key }) => key === one.key)?.who ?? one.doer;
      const doer = whose(whole, one.key, told);
      return {
        key: one.key,
        what: 'chore',
        name: one.name,
        at: one.at ?? '',
        ...(doer ? { doer } : {}),
      };
    });
  const open = [...asked, ...standing].filter(({ key }) => whole.chores_done[key] === undefined);
  const warned = new Set(open.flatMap(({ what, space }) => (what === 'frost' && space ? [space] : [])));
  return [
    ...near_frost(whole.facts, today).filter(({ space }) => space && holds.has(space) && !warned.has(space)),
    ...open,
  ].sort((a, b) => a.at.localeCompare(b.at));
}

const before = (day: string): string => new Date(Date.parse(day) - 86_400_000).toISOString().slice(0, 10);

/** The last reading of each space, where it is of today or yesterday and near frost. */
function near_frost(facts: readonly Fact[], today: string): readonly Tonight[] {
  const last = new Map<Id, Fact>();
  for (const fact of facts) {
    if (fact.kind !== 'reading') continue;
    const { space } = fact.body as BodyOf<'reading'>;
    if ((last.get(space)?.when_ms ?? -Infinity) < fact.when_ms) last.set(space, fact);
  }
  return [...last].flatMap(([space, { body, day }]): Tonight[] => {
    const { temp_c } = body as BodyOf<'reading'>;
    if (temp_c === undefined || temp_c > NEAR_FROST || day < before(today)) return [];
    return [{ key: `frost_near/${space}`, what: 'frost_near', name: '', space, at: '', temp_c }];
  });
}
