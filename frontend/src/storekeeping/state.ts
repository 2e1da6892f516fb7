/**
 * What the fold takes and gives: plain JSON. Twin: `homestead/storekeeping/state.py`.
 *
 * Units: grams [g], pieces in quarters, days as `YYYY-MM-DD` in the household's zone, moments as `when_ms`, whole
 * milliseconds since 1970 in UTC, already corrected (docs/fold.md, F1). `null` always means: not known.
 */
import type { Day, Do, Step } from './shapes.ts';

export type Measure = 'pieces' | 'grams';
export type Known = 'counted' | 'worked_out' | 'presumed';
export type Bucket =
  'found' | 'eaten' | 'given' | 'seed' | 'shrink' | 'cured' | 'moved' | 'put_by' | 'unknown';
/** What a row of what went where says: a use step, or what became of it otherwise. */
export type Way =
  Step | 'eaten' | 'given' | 'seed' | 'lost' | 'dried' | 'cured' | 'moved' | 'put_by' | 'unknown' | 'found';
/** `clock` F2, `more` F9, `other_space` F15, `nothing_there` F4, `second` and `after_finish` F19. */
export type Flag = 'clock' | 'more' | 'other_space' | 'nothing_there' | 'second' | 'after_finish';

/** The envelope as the phone wrote it; the body is told apart by `kind` (shapes.ts). */
export interface WrittenLine {
  readonly id: string;
  readonly device: string;
  readonly device_no: number;
  readonly person: string;
  readonly kind: string;
  readonly happened_at: string;
  readonly dated: 'clock' | 'person';
  readonly body: object;
  readonly strikes?: string;
  readonly photos?: readonly string[];
}

/** One line of the ledger. `seq` absent: not sent yet. `standing` refused: in the tray, outside the fold. */
export interface Line {
  readonly written: WrittenLine;
  readonly seq?: number;
  readonly clock_skew_ms?: number;
  readonly standing?: string;
}

/**
 * Figures of one crop, the household's own already put before the table's. Absent: not known.
 *
 * count_unit: `kg`, else it is counted in pieces. piece_g: grams a piece (middle of medium, garden before shop).
 * refuse_pct: refuse when fresh [%]. refuse_stored: middle of each `refuse_stored_pct`, by months, rising.
 */
export interface CropFigures {
  readonly count_unit?: string;
  readonly piece_g?: number;
  readonly refuse_pct?: number;
  readonly refuse_stored?: readonly { readonly months: number; readonly pct: number }[];
}

/** Fields of a lot's record the fold shows in place of what its birth told. */
export interface LotRecord {
  readonly code?: string;
  readonly variety?: string;
  readonly label?: string;
  readonly winter?: number;
}

/** What a household's fold stands on. `zone` is an IANA name; `figures` by crop id; `lots` by lot id. */
export interface Setting {
  readonly zone: string;
  readonly hemisphere: 'north' | 'south';
  readonly figures: Readonly<Record<string, CropFigures>>;
  readonly lots?: Readonly<Record<string, LotRecord>>;
}

export interface Amount {
  pieces: number | null;
  grams: number | null;
}

export interface SeedKept extends Amount {
  treated: boolean;
}

/**
 * One row of what went where. `unwritten`: told only by the difference of a count (F10).
 * `lot` null: scraps that no lot's entry told of. `animals` the group's id, if one was named.
 */
export interface Went {
  entry: string;
  kind: string;
  lot: string | null;
  crop: string | null;
  day: Day;
  when_ms: number;
  person: string;
  way: Way;
  bucket: Bucket;
  pieces: number | null;
  grams: number | null;
  findings: readonly string[];
  part: string | null;
  cut_in: string | null;
  animals: string | null;
  accident: boolean;
  unwritten: boolean;
}

/**
 * Grams by what became of them (F15, balance); `steps` by use step, `unwritten` the part of a bucket that only counts
 * told of, `unweighed` pieces by bucket where no weight is known.
 *
 * put_away + found = there + eaten + given + seed + shrink + cured + moved + put_by + unknown holds when `whole` is
 * true: grams were known all along. `there` may be below nought.
 */
export interface Tallies {
  whole: boolean;
  put_away: number | null;
  there: number | null;
  found: number;
  eaten: number;
  given: number;
  seed: number;
  shrink: number;
  cured: number;
  moved: number;
  put_by: number;
  unknown: number;
  steps: Partial<Record<Step, number>>;
  unwritten: Partial<Record<Bucket, number>>;
  unweighed: Partial<Record<Bucket, number>>;
}

/** `stands`: the lowest of a suspect's decisions (F19). `done`: something left by it. */
export interface DecisionState {
  id: string;
  person: string;
  when_ms: number;
  do: Do;
  animals: string | null;
  doer: string | null;
  by: Day | null;
  look_on: Day | null;
  with_out: boolean;
  stands: boolean;
  done: boolean;
}

/** `open` undecided; `kept`; `to_do` decided, the chore open; `gone` it left; `closed` its lot was finished. */
export interface SuspectState {
  id: string;
  lot: string;
  person: string;
  when_ms: number;
  day: Day;
  state: 'open' | 'kept' | 'to_do' | 'gone' | 'closed';
  lies: string;
  findings: readonly string[];
  pieces: number | null;
  grams: number | null;
  photos: readonly string[];
  decisions: DecisionState[];
}

/** A finding that still holds (F18). `share` of the looked, 0 to 1; null: not numbered, lowers the rung. */
export interface StandingFinding {
  finding: string;
  entry: string;
  pieces: number | null;
  looked: number | null;
  share: number | null;
  suspect: boolean;
}

/** An entry pointed at: the last look, the last count. */
export interface Mark {
  entry: string;
  when_ms: number;
  day: Day;
}

/** One entry of a lot's life, struck ones too. `counts` false: struck, or what it names is not there. */
export interface PastEntry {
  id: string;
  kind: string;
  person: string;
  when_ms: number;
  day: Day;
  counts: boolean;
  struck_by: string | null;
  flags: Flag[];
  photos: readonly string[];
}

/**
 * A lot as of `today`.
 *
 * pieces, grams: the sum, may be below nought. shown: never below nought, lessened by use when presumed (F12, F16).
 * held: pieces of suspects, no food (F13). edible_grams: null where refuse is not known (F14).
 * last_look: inspection not `none`, birth, count (F17). look_on: the earliest day a standing decision asks for, not
 * looked at since. counted_until: last day the word is `counted`, if it is now.
 */
export interface LotState {
  id: string;
  crop: string;
  variety: string | null;
  label: string | null;
  code: string | null;
  parent: string | null;
  born_by: 'put_away' | 'put_by' | 'move';
  method: string | null;
  space: string;
  spot: string | null;
  pack: string | null;
  put_away_day: Day;
  born_day: Day;
  winter: number;
  curing: boolean;
  cures_until: Day | null;
  keeps_until: Day | null;
  pieces: number | null;
  grams: number | null;
  ratio: number | null;
  own_measure: Measure;
  known: Known;
  counted_until: Day | null;
  shown: Amount;
  seed: SeedKept;
  held: Amount;
  food: Amount;
  edible_grams: number | null;
  asks_count: boolean;
  finished: boolean;
  tallies: Tallies;
  suspects: SuspectState[];
  standing: StandingFinding[];
  last_look: Mark;
  last_count: Mark | null;
  last_entry: Mark;
  look_on: Day | null;
  first_photo: string | null;
  last_photo: string | null;
  history: PastEntry[];
}

/** A standing decision not done yet. `key` is what `chore_done` and `claim` name: the decision's id. */
export interface OpenChore {
  key: string;
  lot: string;
  suspect: string;
  do: Do;
  animals: string | null;
  doer: string | null;
  by: Day | null;
  pieces: number | null;
  grams: number | null;
}

/** The first `chore_done` of a key by F2; `others` are only shown. */
export interface ChoreDone {
  entry: string;
  person: string;
  when_ms: number;
  day: Day;
  minutes: number | null;
  others: string[];
}

/** Who took it: of several the lowest `seq`, those not sent yet after; `others` are only shown. */
export interface Claim {
  entry: string;
  person: string;
  when_ms: number;
  others: string[];
}

/** A chore that whoever had it gave away and nobody has taken yet. */
export interface Offer {
  entry: string;
  person: string;
  when_ms: number;
}

/** An entry outside the lots that counts: `round`, `reading`, `lay`, `pail`, `heap`. */
export interface Fact {
  id: string;
  kind: string;
  person: string;
  when_ms: number;
  day: Day;
  body: object;
  flags: Flag[];
}

/** The whole result. `went` holds every row of every lot and of `scrap`, in order (F2). */
export interface FoldState {
  lots: Record<string, LotState>;
  went: Went[];
  accidents: Went[];
  chores: OpenChore[];
  chores_done: Record<string, ChoreDone>;
  claims: Record<string, Claim>;
  offers: Record<string, Offer>;
  facts: Fact[];
  past: Record<string, PastEntry>;
}
