/**
 * What is to be done beside walking: suspects to decide on, decisions to carry out, lots to pick over. Pure.
 *
 * A lot to be picked over is a claim on a chore named `pick_over/<inspection>/<day>`: the inspection that found something
 * spreading in a sample, and the day it shall be done. It is done by a look at every piece since, or by `chore_done`.
 */
import type { Id, RecordNow } from '../../ledger/index.ts';
import type { FoldState, LotState, OpenChore, SuspectState } from '../../storekeeping/state.ts';
import { heaps_to_turn } from '../shared/heaps.ts';
import { is_barred, pail_of } from '../shared/pails.ts';
import { NO_CHORES, type AskedFor, type ChoreSheet } from '../shared/chore_sheet.ts';
import { bodyOf, type Lines } from './entries.ts';
import { standingOn } from '../shared/standing.ts';
import { whose } from '../shared/whose.ts';

export type Chore =
  | {
      readonly chore: 'decide';
      readonly key: Id;
      readonly suspect: SuspectState;
      readonly lot: LotState;
      readonly day: string;
    }
  | {
      readonly chore: 'carry_out';
      readonly key: string;
      readonly todo: OpenChore;
      readonly lot: LotState;
      readonly day: string;
      readonly doer?: Id;
    }
  | {
      readonly chore: 'pick_over';
      readonly key: string;
      readonly lot: LotState;
      readonly day: string;
      readonly doer?: Id;
      readonly findings: readonly string[];
    }
  | {
      readonly chore: 'standing';
      readonly key: string;
      readonly name: string;
      readonly day: string;
      readonly doer?: Id;
    }
  | {
      /** A pail an adult has looked into, to be carried; what was left lying, to be taken up by dusk. */
      readonly chore: 'carry_pail' | 'take_up';
      readonly key: string;
      readonly group: Id;
      readonly name: string;
      readonly day: string;
      readonly doer?: Id;
    }
  | {
      readonly chore: 'turn_heap';
      readonly key: string;
      readonly heap: Id;
      readonly name: string;
      readonly day: string;
      readonly doer?: Id;
    }
  | {
      /** Known from the sheet alone: a room to be aired, a stash to be emptied. */
      readonly chore: 'asked';
      readonly key: string;
      readonly what: string;
      readonly name: string;
      readonly space?: Id;
      readonly day: string;
      readonly doer?: Id;
    };

export const pickOverKey = (inspection: Id, day: string): string => `pick_over/${inspection}/${day}`;

const PICK_OVER = /^pick_over\/([^/]+)\/(\d{4}-\d\d-\d\d)$/;

/** The inspection and the day a key names. */
export const readPickOver = (key: string): { readonly inspection: Id; readonly day: string } | undefined => {
  const [, inspection, day] = PICK_OVER.exec(key) ?? [];
  return inspection && day ? { inspection, day } : undefined;
};

/** Has every piece of the lot been looked at after that moment? */
const pickedOverSince = (lot: LotState, when_ms: number, lines: Lines): boolean =>
  lot.history.some(
    (past) =>
      past.counts &&
      past.kind === 'inspection' &&
      past.when_ms > when_ms &&
      bodyOf('inspection', lines.get(past.id))?.way === 'all',
  );

/** What the chores are read from, and whose each one is. */
interface Known {
  readonly whole: FoldState;
  readonly sheet: ChoreSheet;
  readonly today: string;
}

/** Whose it is: claims and offers, then the sheet, then whom the decision or the record names. */
function doer_of({ whole, sheet }: Known, key: string, named?: Id | null): { readonly doer?: Id } {
  const told = sheet.asked.find((one) => one.key === key)?.who ?? named ?? undefined;
  const doer = whose(whole, key, told);
  return doer === undefined ? {} : { doer };
}

function pickOvers(known: Known, lines: Lines): readonly Chore[] {
  const { whole } = known;
  return Object.keys(whole.claims).flatMap((key): Chore[] => {
    const named = readPickOver(key);
    const seen = named && bodyOf('inspection', lines.get(named.inspection));
    const past = named && whole.past[named.inspection];
    const lot = seen && whole.lots[seen.lot];
    if (!named || !seen || !past?.counts || !lot || lot.finished || whole.chores_done[key]) return [];
    if (pickedOverSince(lot, past.when_ms, lines)) return [];
    const findings = (seen.seen ?? []).map(({ finding }) => finding);
    return [{ chore: 'pick_over', key, lot, day: named.day, ...doer_of(known, key), findings }];
  });
}

const undecided = (whole: FoldState): readonly Chore[] =>
  Object.values(whole.lots).flatMap((lot) =>
    lot.suspects
      .filter((suspect) => suspect.state === 'open')
      .map((suspect): Chore => ({ chore: 'decide', key: suspect.id, suspect, lot, day: suspect.day })),
  );

const toCarryOut = (known: Known): readonly Chore[] =>
  known.whole.chores.flatMap((todo): Chore[] => {
    const { key } = todo;
    const lot = known.whole.lots[todo.lot];
    const day = todo.by ?? known.today;
    return lot ? [{ chore: 'carry_out', key, todo, lot, day, ...doer_of(known, key, todo.doer) }] : [];
  });

/** Those of today, and of what was missed the last, which the sheet names. */
function standing(known: Known, records: readonly RecordNow[]): readonly Chore[] {
  const { today, sheet } = known;
  const now = standingOn(today, records);
  const ids = new Set(records.filter(({ type }) => type === 'chore').map(({ id }) => id));
  const missed = sheet.asked.filter(
    ({ key, what, day }) => what === 'standing' && day < today && ids.has(key.slice(0, -11)),
  );
  const again = new Set(now.map(({ key }) => key.slice(0, -11)));
  return [...missed.filter(({ key }) => !again.has(key.slice(0, -11))).map(missed_of), ...now]
    .filter(({ key }) => known.whole.chores_done[key] === undefined)
    .map(({ key, name, day, doer }): Chore => ({
      chore: 'standing',
      key,
      name,
      day,
      ...doer_of(known, key, doer),
    }));
}

const missed_of = ({ key, name, day }: AskedFor): { key: string; name: string; day: string; doer?: Id } => ({
  key,
  name,
  day,
});

function pails(known: Known, records: readonly RecordNow[]): readonly Chore[] {
  const household = records.find(({ type }) => type === 'household')?.values ?? {};
  return records
    .filter(({ type, values }) => type === 'animals' && values['archived'] !== true)
    .flatMap(({ id, values }): Chore[] => {
      const barred = is_barred(values, household, known.today);
      const { state, key, take_up } = pail_of(id, known.whole, known.today, barred);
      if (state !== 'ready' && state !== 'carried') return [];
      const named = state === 'ready' ? key : take_up;
      return [
        {
          chore: state === 'ready' ? 'carry_pail' : 'take_up',
          key: named,
          group: id,
          name: typeof values['name'] === 'string' ? values['name'] : '',
          day: known.today,
          ...doer_of(known, named),
        },
      ];
    });
}

const heaps = (known: Known, records: readonly RecordNow[]): readonly Chore[] =>
  heaps_to_turn(records, known.whole.facts, known.today)
    .filter(({ key }) => known.whole.chores_done[key] === undefined)
    .map(({ heap, day, key }): Chore => ({
      chore: 'turn_heap',
      key,
      heap: heap.id,
      name: heap.name,
      day,
      ...doer_of(known, key),
    }));

/** What the phone works out itself; of the rest the sheet is the only one to ask. */
const OWN = new Set(['standing', 'carry_out', 'decide', 'pick_over', 'turn_heap']);

const asked = (known: Known): readonly Chore[] =>
  known.sheet.asked
    .filter(({ what, day, key }) => !OWN.has(what) && day <= known.today && !known.whole.chores_done[key])
    .map(({ key, what, name, space, day }): Chore => ({
      chore: 'asked',
      key,
      what,
      name,
      ...(space ? { space } : {}),
      day,
      ...doer_of(known, key),
    }));

/** All that is open, the longest waiting first. A suspect asks again at each look until somebody decides. */
export function choresOf(
  whole: FoldState | undefined,
  lines: Lines,
  records: readonly RecordNow[],
  today: string,
  sheet: ChoreSheet = NO_CHORES,
): readonly Chore[] {
  if (whole === undefined) return [];
  const known = { whole, sheet, today };
  return [
    ...undecided(whole),
    ...toCarryOut(known),
    ...pickOvers(known, lines),
    ...standing(known, records),
    ...pails(known, records),
    ...heaps(known, records),
    ...asked(known),
  ].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
}

/** Chores of the person: theirs, and those nobody has. What waits for a decision is every adult's. */
export const isFor = (chore: Chore, person: Id | undefined): boolean =>
  chore.chore === 'decide' || chore.doer === undefined || chore.doer === person;

/** The person's own first, then what nobody has, then the others'; each the longest waiting first. */
export function mineFirst(chores: readonly Chore[], me: Id | undefined): readonly Chore[] {
  const mine = (chore: Chore) => chore.chore !== 'decide' && chore.doer !== undefined && chore.doer === me;
  const rank = (chore: Chore) => (mine(chore) ? 0 : isFor(chore, me) ? 1 : 2);
  return [...chores].sort((a, b) => rank(a) - rank(b));
}

/** A small child sees only what is theirs. */
export const onlyMine = (chores: readonly Chore[], me: Id | undefined): readonly Chore[] =>
  chores.filter((chore) => chore.chore !== 'decide' && chore.doer !== undefined && chore.doer === me);
