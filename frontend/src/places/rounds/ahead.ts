/** The next 14 days: walks and chores, each series told once with the days it falls on. Pure. */
import type { Id, RecordNow } from '../../ledger/index.ts';
import type { FoldState } from '../../storekeeping/state.ts';
import type { ChoreSheet } from '../shared/chore_sheet.ts';
import type { PlannedWalk } from './roster.ts';
import { standingOn } from '../shared/standing.ts';
import { whose } from '../shared/whose.ts';

export interface Ahead {
  /** Of the first of its days. */
  readonly key: string;
  /** `walk`, or what the sheet calls the chore. */
  readonly what: string;
  /** A chore's own; '' for a walk. */
  readonly name: string;
  readonly space?: Id;
  readonly days: readonly string[];
  readonly minutes: number;
  readonly lots: number;
  /** What the sheet says it asks of whoever does it; a walk's are at its door. */
  readonly needs: readonly string[];
  readonly who?: Id;
}

/** So far ahead as the roster looks. [days] */
const AHEAD = 14;

const later = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * 86_400_000).toISOString().slice(0, 10);

interface Known {
  readonly walks: readonly PlannedWalk[];
  readonly sheet: ChoreSheet;
  readonly records: readonly RecordNow[];
  readonly whole: Pick<FoldState, 'claims' | 'offers' | 'chores_done'>;
  readonly today: string;
}

interface One {
  readonly key: string;
  readonly what: string;
  readonly name: string;
  readonly day: string;
  readonly minutes: number;
  readonly needs: readonly string[];
  readonly who: Id | undefined;
}

/** Standing chores of the days ahead as the phone knows them, whose as the sheet says. */
function standing_ahead({ sheet, records, whole, today }: Known): readonly One[] {
  const told = new Map(sheet.asked.map((one) => [one.key, one]));
  const days = Array.from({ length: AHEAD }, (_, on) => later(today, on + 1));
  const standing = days.flatMap((day) => standingOn(day, records));
  const others = sheet.asked.filter(
    ({ what, day }) => what !== 'standing' && day > today && day <= later(today, AHEAD),
  );
  return [
    ...standing.map((one) => ({ ...one, what: 'standing', who: told.get(one.key)?.who ?? one.doer })),
    ...others,
  ]
    .filter(({ key }) => whole.chores_done[key] === undefined)
    .map(({ key, what, name, day, minutes, who }) => ({
      key,
      what,
      name,
      day,
      minutes: minutes ?? told.get(key)?.minutes ?? 0,
      needs: told.get(key)?.needs ?? [],
      who: whose(whole, key, who),
    }));
}

/** Chores of one record and one person together: "every day" is one row, not fourteen. */
function series(ones: readonly One[]): readonly Ahead[] {
  const found = new Map<string, Ahead>();
  for (const { key, what, name, day, minutes, needs, who } of ones) {
    const named = `${key.slice(0, -11)} ${who ?? ''}`;
    const known = found.get(named);
    found.set(
      named,
      known
        ? { ...known, days: [...known.days, day] }
        : { key, what, name, days: [day], minutes, needs, lots: 0, ...(who ? { who } : {}) },
    );
  }
  return [...found.values()];
}

const walks_ahead = ({ walks, whole, today }: Known): readonly Ahead[] =>
  walks
    .filter(({ key, day }) => day > today && day <= later(today, AHEAD) && !whole.chores_done[key])
    .map(({ key, space, day, minutes, lots, who }) => ({
      key,
      what: 'walk',
      name: '',
      space,
      days: [day],
      minutes,
      lots,
      needs: [],
      ...(who ? { who } : {}),
    }));

/** Each part the soonest first. */
export interface Parted {
  readonly mine: readonly Ahead[];
  readonly nobodys: readonly Ahead[];
  readonly others: readonly Ahead[];
}

export function ahead_of(known: Known, me: Id | undefined): Parted {
  const all = [...walks_ahead(known), ...series(standing_ahead(known))].sort((a, b) =>
    (a.days[0] ?? '').localeCompare(b.days[0] ?? ''),
  );
  return {
    mine: all.filter(({ who }) => who !== undefined && who === me),
    nobodys: all.filter(({ who }) => who === undefined),
    others: all.filter(({ who }) => who !== undefined && who !== me),
  };
}

/** Minutes asked of one's own days ahead. */
export const minutes_of = (rows: readonly Ahead[]): number =>
  rows.reduce((sum, { days, minutes }) => sum + days.length * minutes, 0);
