/**
 * A round walked with paper and pencil, as entries: what was written by each lot, typed in afterwards in one go and dated
 * by the person. A line nobody wrote on is no look. Pure.
 */
import type { Body, Id, NewEntry } from '../../../ledger/index.ts';
import { roundBody } from '../bodies.ts';

/** `blank`: nothing stands on the paper; the lot stays as it was. */
export type Mark = 'blank' | 'sound' | 'some' | 'not';

/** What leaves the store from a pencil sheet goes where nothing is asked of it: no animal, no table. */
export type OutTo = 'compost' | 'bin';

export interface TypedLot {
  readonly lot: Id;
  readonly mark: Mark;
  /** Every piece was meant to be looked at. */
  readonly whole: boolean;
  /** Pieces. */
  readonly looked: number | undefined;
  readonly out: number;
  readonly finding: string;
  readonly to: OutTo;
}

export interface TypedRound {
  readonly round: Id;
  readonly space: Id;
  /** The day on the paper; undefined: today, by the clock. */
  readonly day: string | undefined;
  /** When it is typed, as ISO 8601 in UTC. */
  readonly now: string;
  readonly temp_c: number | undefined;
  readonly rh_pct: number | undefined;
  readonly lots: readonly TypedLot[];
}

/** More came out than was looked at: so many were looked at. */
const looked_at = ({ looked, out, mark }: TypedLot): number | undefined =>
  mark === 'some' ? Math.max(looked ?? 0, out) || undefined : looked;

function look(typed: TypedLot, round: Id, space: Id): Body {
  const { lot, mark, out, finding, to } = typed;
  const walk = { lot, round, space };
  if (mark === 'not') return { ...walk, way: 'none', why_not: 'other', counted: false };
  const looked = looked_at(typed);
  const seen = mark === 'some' ? { seen: [out > 0 ? { finding, pieces: out } : { finding }] } : {};
  const left =
    mark === 'some' && out > 0 ? { out: [{ pieces: out, findings: [finding], went: [{ step: to }] }] } : {};
  return {
    ...walk,
    way: typed.whole ? 'all' : 'sample',
    ...(looked === undefined ? {} : { looked }),
    counted: false,
    ...seen,
    ...left,
  };
}

/** The round first: the looks and the reading name it. Nothing where no lot was marked and nothing read. */
export function typed_entries(typed: TypedRound): readonly NewEntry[] {
  const { round, space, day, now, temp_c, rh_pct } = typed;
  const dated = day === undefined ? {} : { day };
  const marked = typed.lots.filter(({ mark }) => mark !== 'blank');
  const read = {
    ...(temp_c === undefined ? {} : { temp_c }),
    ...(rh_pct === undefined ? {} : { rh_pct }),
  };
  const any_read = Object.keys(read).length > 0;
  if (marked.length === 0 && !any_read) return [];
  const at = day === undefined ? now : `${day}T12:00:00.000Z`;
  return [
    { id: round, kind: 'round', body: roundBody(space, at, at), ...dated },
    ...(any_read ? [{ kind: 'reading', body: { space, round, ...read }, ...dated }] : []),
    ...marked.map((lot) => ({ kind: 'inspection', body: look(lot, round, space), ...dated })),
  ];
}
