/** What a lot has been through, in figures for one sentence; its last look; its photos. Pure. */
import type { Hash, Id, Line } from '../../ledger/index.ts';
import type { LotState, Went } from '../../storekeeping/state.ts';
import { bodyOf, type Lines } from './entries.ts';
import { toldOf } from './sample.ts';

/** Pieces where they are known, else grams. */
export interface HowMuch {
  readonly pieces?: number;
  readonly grams?: number;
}

const amount = (pieces: number | null | undefined, grams: number | null | undefined): HowMuch => ({
  ...(pieces == null ? {} : { pieces }),
  ...(grams == null ? {} : { grams }),
});

export interface LostTo extends HowMuch {
  readonly finding: string;
}

export interface Story {
  readonly put_away_day: string;
  readonly put_away: HowMuch;
  readonly eaten: HowMuch;
  readonly given: HowMuch;
  readonly lost: readonly LostTo[];
}

const sum = (rows: readonly Went[]): HowMuch => {
  const known = (name: 'pieces' | 'grams') => rows.map((row) => row[name]).filter((value) => value !== null);
  const total = (values: readonly number[]) =>
    values.length > 0 ? values.reduce((a, b) => a + b, 0) : undefined;
  return amount(total(known('pieces')), total(known('grams')));
};

/** The first body of the lot: what its birth told. A part of another lot begins with what was moved. */
function begun(lot: LotState, lines: Lines): HowMuch {
  const body = lines.get(lot.id)?.written.body;
  const number = (value: unknown) => (typeof value === 'number' ? value : undefined);
  return amount(number(body?.['pieces']), number(body?.['grams']));
}

export function storyOf(lot: LotState, went: readonly Went[], lines: Lines): Story {
  const own = went.filter((row) => row.lot === lot.id);
  const bucket = (name: Went['bucket']) => sum(own.filter((row) => row.bucket === name));
  const culled = own.filter(
    (row) => row.findings.length > 0 && !row.findings.includes('sound') && (row.pieces ?? 0) > 0,
  );
  const findings = [...new Set(culled.map((row) => row.findings[0] ?? 'unsure'))];
  return {
    put_away_day: lot.put_away_day,
    put_away: begun(lot, lines),
    eaten: sum(own.filter((row) => row.bucket === 'eaten' && !culled.includes(row))),
    given: bucket('given'),
    lost: findings.map((finding) => ({
      finding,
      ...sum(culled.filter((row) => (row.findings[0] ?? 'unsure') === finding)),
    })),
  };
}

/** What somebody saw, told as a value. */
export type LastLook =
  | { readonly saw: 'sound'; readonly looked?: number; readonly whole: boolean }
  | { readonly saw: 'out'; readonly out: number; readonly looked?: number }
  | { readonly saw: 'counted' }
  | { readonly saw: 'put_away' };

/** An entry that is a look (fold F17): an inspection, a count, a birth. */
export function seenIn(line: Line | undefined): LastLook {
  const seen = bodyOf('inspection', line);
  if (seen === undefined) return { saw: line?.written.kind === 'count' ? 'counted' : 'put_away' };
  const out = (seen.out ?? []).reduce((pieces, { pieces: more = 0 }) => pieces + more, 0);
  const told = toldOf(seen.looked, { whole: seen.way === 'all', by_hand: seen.counted });
  const looked = told === undefined ? {} : { looked: told };
  return out > 0 ? { saw: 'out', out, ...looked } : { saw: 'sound', whole: seen.way === 'all', ...looked };
}

/** A picture of the lot and the entry it was taken for. */
export interface Taken {
  readonly hash: Hash;
  readonly entry: Id;
  readonly kind: string;
  readonly person: Id;
  readonly when_ms: number;
  readonly day: string;
}

/** Photos of entries that count, from first to last. */
export const photosOf = (lot: LotState): readonly Taken[] =>
  [...lot.history]
    .filter((past) => past.counts)
    .sort((a, b) => a.when_ms - b.when_ms)
    .flatMap(({ id, kind, person, when_ms, day, photos }) =>
      photos.map((hash) => ({ hash, entry: id, kind, person, when_ms, day })),
    );

/** Pictures of the lot itself, not of a suspect in it. */
export const looksOf = (lot: LotState): readonly Taken[] =>
  photosOf(lot).filter(({ kind }) => kind !== 'suspect');

/** The picture of a look before that moment, the newest; without one the oldest there is. */
export function photoBefore(lot: LotState, when_ms: number): Taken | undefined {
  const looks = looksOf(lot);
  return looks.filter((taken) => taken.when_ms < when_ms).at(-1) ?? looks[0];
}

/** The last picture of the lot itself, else the last one of anything in it. */
export const lastPhoto = (lot: LotState): Taken | undefined => looksOf(lot).at(-1) ?? photosOf(lot).at(-1);

/**
 * Lots of the same space where mice were at something, seen within so many days: their neighbours are looked at for
 * marks too, also when what was gnawed is out of the lot by now. Ours, no source.
 */
const MICE_DAYS = 14;
const MICE = 'gnawed';

const daysAgo = (day: string, today: string): number => (Date.parse(today) - Date.parse(day)) / 86_400_000;

function miceSeen(lot: LotState, lines: Lines, today: string): boolean {
  const recent = (day: string) => daysAgo(day, today) <= MICE_DAYS;
  const looked = lot.history.some(
    (past) =>
      past.counts &&
      recent(past.day) &&
      (bodyOf('inspection', lines.get(past.id))?.seen ?? []).some(({ finding }) => finding === MICE),
  );
  const stands = recent(lot.last_look.day) && lot.standing.some(({ finding }) => finding === MICE);
  const doubted = lot.suspects.some(({ day, findings }) => recent(day) && findings.includes(MICE));
  return looked || stands || doubted;
}

export const miceNear = (
  lot: LotState,
  lots: readonly LotState[],
  lines: Lines,
  today: string,
): LotState | undefined =>
  lots.find((other) => other.id !== lot.id && other.space === lot.space && miceSeen(other, lines, today));
