/** The roster sheets as a walk reads them (docs/sheets.md). A sheet of another shape, of a newer server, reads as none. Pure. */
import type { Id, Json, Sheet } from '../../ledger/index.ts';
import type { FoldState } from '../../storekeeping/state.ts';
import type { Roster } from './walk.ts';
import { whose } from '../shared/whose.ts';

type Fields = { readonly [name: string]: Json };

const isFields = (value: Json | undefined): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const rows = (value: Json | undefined): readonly Fields[] =>
  Array.isArray(value) ? value.filter(isFields) : [];
const text = (value: Json | undefined): string | undefined => (typeof value === 'string' ? value : undefined);

/** Days between looks by lot and the day they are of, and who walks which space next; whoever took the walk on has it. */
export function rosterOf(
  sheets: readonly Sheet[],
  claims: FoldState['claims'],
  offers: FoldState['offers'] = {},
): Roster {
  const days: Record<Id, number> = {};
  const on: Record<Id, string> = {};
  const who: Record<Id, readonly Id[]> = {};
  for (const { kind, key, content } of sheets) {
    if (kind !== 'roster' || !isFields(content)) continue;
    const space = text(content['space']);
    for (const lot of rows(content['lots'])) {
      const id = text(lot['lot']);
      if (id === undefined || typeof lot['days'] !== 'number') continue;
      days[id] = lot['days'];
      const day = text(content['day']);
      if (day !== undefined) on[id] = day;
    }
    const [walk] = rows(content['walks']);
    if (space === undefined || walk === undefined) continue;
    const person = whose({ claims, offers }, `${key}/${text(walk['day']) ?? ''}`, text(walk['who']));
    // on the last day in time another is asked as well
    const people = [person, text(walk['also'])].filter((one) => one !== undefined);
    if (people.length > 0) who[space] = [...new Set(people)];
  }
  return { days, on, who };
}

/** A walk the roster tells: the chore of its key can be taken on, given away and done (docs/fold.md F19). */
export interface PlannedWalk {
  readonly key: string;
  readonly space: Id;
  readonly day: string;
  readonly latest: string;
  readonly minutes: number;
  readonly lots: number;
  readonly who?: Id;
  /** On its last day in time another is asked as well. */
  readonly also?: Id;
  /** What a week of waiting loses of it; absent where nobody knows. [g] */
  readonly risk_g?: number;
}

/** What a walk so late has put at risk, as far as it is known. [g] */
export const risked_g = (walk: PlannedWalk | undefined, late: number): number =>
  Math.round(((walk?.risk_g ?? 0) * late) / 7);

/** Every walk of every space's sheet, the soonest first. */
export function walksOf(
  sheets: readonly Sheet[],
  taken: Pick<FoldState, 'claims' | 'offers'>,
): readonly PlannedWalk[] {
  return sheets
    .filter(({ kind, content }) => kind === 'roster' && isFields(content))
    .flatMap(({ key, content }) => {
      const told = content as Fields;
      const space = text(told['space']) ?? '';
      return rows(told['walks']).map((walk) =>
        walkOf(`${key}/${text(walk['day']) ?? ''}`, space, walk, taken),
      );
    })
    .sort((a, b) => a.day.localeCompare(b.day) || a.key.localeCompare(b.key));
}

function walkOf(
  key: string,
  space: Id,
  walk: Fields,
  taken: Pick<FoldState, 'claims' | 'offers'>,
): PlannedWalk {
  const who = whose(taken, key, text(walk['who']));
  const day = text(walk['day']) ?? '';
  return {
    key,
    space,
    day,
    latest: text(walk['latest']) ?? day,
    minutes: typeof walk['minutes'] === 'number' ? walk['minutes'] : 0,
    lots: Array.isArray(walk['lots']) ? walk['lots'].length : 0,
    ...(who === undefined ? {} : { who }),
    ...(text(walk['also']) === undefined ? {} : { also: text(walk['also']) ?? '' }),
    ...(typeof walk['risk_g'] === 'number' ? { risk_g: walk['risk_g'] } : {}),
  };
}
