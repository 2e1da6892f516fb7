/**
 * The air of the rooms: the sheet `rooms` (docs/sheets.md). A sheet of another shape, of a newer server, reads as none.
 * `behind`: a reading was written that it did not know. Pure.
 */
import type { Id, Json, Sheet } from '../../ledger';
import type { Fact } from '../../storekeeping/state';
import { band, fields, number_of, rows, text, type Band, type Fields } from '../shared/sheet_fields';
import type { Held } from '../shared/since';

export interface Outside {
  readonly space: Id;
  readonly when: string;
  readonly temp_c: number;
  readonly rh_pct: number;
}
export interface Frost {
  readonly level: string;
  /** P10, P50, P90 of the lowest to come. [°C] */
  readonly lowest_c: Band;
  readonly by_outside: boolean;
}
export interface Vent {
  readonly open: boolean;
  readonly why: string;
  readonly becomes_pct: number;
  readonly shut_at_c: number;
}
export interface Wanted {
  readonly temp_c: readonly [number, number];
  readonly rh_pct: readonly [number, number] | undefined;
  readonly freezing_c: number;
  readonly freezes_first: string;
  /** No air is right for all that lies there. */
  readonly crossed: boolean;
}
export interface Week {
  readonly from: string;
  readonly band: Band;
  readonly reads: number;
  readonly read: readonly [number, number] | undefined;
}
export interface Drying {
  readonly lot: Id;
  readonly feels: string;
  /** Soonest, likeliest, latest; '' beyond half a year. */
  readonly limp_on: readonly [string, string, string];
}
export interface Room {
  readonly space: Id;
  readonly amiss: string;
  readonly word: string;
  readonly last: { readonly when: string; readonly dew_c: number | undefined } | undefined;
  /** Lowest and highest read in seven days. */
  readonly lately: readonly [number, number] | undefined;
  readonly week: Band | undefined;
  readonly weeks: readonly Week[];
  readonly stuck_days: number;
  readonly wanted: Wanted | undefined;
  readonly neighbours: readonly { readonly gives: string; readonly suffers: string }[];
  readonly costs: readonly { readonly crop: string; readonly best: Id; readonly days: Band }[];
  readonly chilled: readonly { readonly lot: Id; readonly below_c: number; readonly hurt: string }[];
  readonly drying: readonly Drying[];
  readonly frost: Frost | undefined;
  readonly vent: Vent | undefined;
  /** Outside temperatures at which opening helps, however damp it is. [°C] */
  readonly outside_helps: readonly [number, number] | undefined;
}
export interface Rooms {
  readonly day: string;
  readonly made_at: string;
  readonly behind: boolean;
  readonly outside: Outside | undefined;
  readonly rooms: readonly Room[];
}

/** Undefined where no sheet came yet. */
export function rooms_of(
  sheets: readonly Sheet[],
  facts: readonly Fact[],
  held: Pick<Held, 'lines' | 'today'>,
): Rooms | undefined {
  const sheet = sheets.find((one) => one.kind === 'rooms');
  const told = fields(sheet?.content);
  if (!sheet || !told) return undefined;
  const day = text(told['day']);
  const news = facts.some((fact) => fact.kind === 'reading' && unknown_to(fact.id, sheet.as_of, held));
  return {
    day,
    made_at: sheet.made_at,
    behind: news || day < held.today,
    outside: outside(told['outside']),
    rooms: rows(told['rooms']).map(room),
  };
}

function unknown_to(id: Id, as_of: number, held: Pick<Held, 'lines'>): boolean {
  const seq = held.lines.get(id)?.seq;
  return seq === undefined || seq > as_of;
}

function pair(value: Json | undefined): readonly [number, number] | undefined {
  if (!Array.isArray(value)) return undefined;
  const [low, high] = value;
  return typeof low === 'number' && typeof high === 'number' ? [low, high] : undefined;
}

function outside(value: Json | undefined): Outside | undefined {
  const told = fields(value);
  const temp_c = number_of(told?.['temp_c']);
  const rh_pct = number_of(told?.['rh_pct']);
  if (!told || temp_c === undefined || rh_pct === undefined) return undefined;
  return { space: text(told['space']), when: text(told['when']), temp_c, rh_pct };
}

const room = (told: Fields): Room => ({
  space: text(told['space']),
  amiss: text(told['amiss']) || text(fields(told['last'])?.['amiss']),
  word: text(told['word']),
  last: last(told['last']),
  lately: pair(told['lately']),
  week: band(told['week']),
  weeks: rows(told['weeks']).flatMap(week),
  stuck_days: number_of(told['stuck_days']) ?? 0,
  wanted: wanted(told['wanted']),
  neighbours: rows(told['neighbours']).map((one) => ({
    gives: text(one['gives']),
    suffers: text(one['suffers']),
  })),
  costs: rows(told['costs']).flatMap((one) => {
    const days = band(one['days']);
    return days ? [{ crop: text(one['crop']), best: text(one['best']), days }] : [];
  }),
  chilled: rows(told['chilled']).map((one) => ({
    lot: text(one['lot']),
    below_c: number_of(one['below_c']) ?? 0,
    hurt: text(one['hurt']),
  })),
  drying: rows(told['drying']).map(drying),
  frost: frost(told['frost']),
  vent: vent(told['vent']),
  outside_helps: pair(told['outside_helps']),
});

function last(value: Json | undefined): Room['last'] {
  const told = fields(value);
  return told && { when: text(told['when']), dew_c: number_of(told['dew_c']) };
}

function week(told: Fields): readonly Week[] {
  const found = band(told['band']);
  if (!found) return [];
  return [
    { from: text(told['from']), band: found, reads: number_of(told['reads']) ?? 0, read: pair(told['read']) },
  ];
}

function wanted(value: Json | undefined): Wanted | undefined {
  const told = fields(value);
  const temp_c = pair(told?.['temp_c']);
  if (!told || !temp_c) return undefined;
  return {
    temp_c,
    rh_pct: pair(told['rh_pct']),
    freezing_c: number_of(told['freezing_c']) ?? 0,
    freezes_first: text(told['freezes_first']),
    crossed: told['crossed'] === true,
  };
}

function drying(told: Fields): Drying {
  const days: readonly Json[] = Array.isArray(told['limp_on']) ? told['limp_on'] : [];
  return {
    lot: text(told['lot']),
    feels: text(told['feels']),
    limp_on: [text(days[0]), text(days[1]), text(days[2])],
  };
}

function frost(value: Json | undefined): Frost | undefined {
  const told = fields(value);
  const lowest_c = band(told?.['lowest_c']);
  if (!told || !lowest_c) return undefined;
  return { level: text(told['level']), lowest_c, by_outside: told['by_outside'] === true };
}

function vent(value: Json | undefined): Vent | undefined {
  const told = fields(value);
  if (!told) return undefined;
  return {
    open: told['open'] === true,
    why: text(told['why']),
    becomes_pct: number_of(told['becomes_pct']) ?? 0,
    shut_at_c: number_of(told['shut_at_c']) ?? 0,
  };
}
