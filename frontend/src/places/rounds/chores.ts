/**
 * What is to be done beside walking: suspects to decide on, decisions to carry out, lots to pick over. Pure.
 *
 * A lot to be picked over is a claim on a chore named `pick_over/<inspection>/<day>`: the inspection that found something
 * spreading in a sample, and the day it shall be done. It is done by a look at every piece since, or by `chore_done`.
 */
import type { Id, RecordNow } from '../../ledger/index.ts';
import type { FoldState, LotState, OpenChore, SuspectState } from '../../storekeeping/state.ts';
import { heaps_to_turn } from '../shared/heaps.ts';
import { pail_of } from '../shared/pails.ts';
import { bodyOf, type Lines } from './entries.ts';
import { standingOn } from './standing.ts';

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
      readonly doer: Id;
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

function pickOvers(whole: FoldState, lines: Lines): readonly Chore[] {
  return Object.entries(whole.claims).flatMap(([key, claim]): Chore[] => {
    const named = readPickOver(key);
    const seen = named && bodyOf('inspection', lines.get(named.inspection));
    const past = named && whole.past[named.inspection];
    const lot = seen && whole.lots[seen.lot];
    if (!named || !seen || !past?.counts || !lot || lot.finished || whole.chores_done[key]) return [];
    if (pickedOverSince(lot, past.when_ms, lines)) return [];
    const findings = (seen.seen ?? []).map(({ finding }) => finding);
    return [{ chore: 'pick_over', key, lot, day: named.day, doer: claim.person, findings }];
  });
}

const undecided = (whole: FoldState): readonly Chore[] =>
  Object.values(whole.lots).flatMap((lot) =>
    lot.suspects
      .filter((suspect) => suspect.state === 'open')
      .map((suspect): Chore => ({ chore: 'decide', key: suspect.id, suspect, lot, day: suspect.day })),
  );

const toCarryOut = (whole: FoldState, today: string): readonly Chore[] =>
  whole.chores.flatMap((todo): Chore[] => {
    const lot = whole.lots[todo.lot];
    const doer = whole.claims[todo.key]?.person ?? todo.doer ?? undefined;
    return lot
      ? [{ chore: 'carry_out', key: todo.key, todo, lot, day: todo.by ?? today, ...(doer ? { doer } : {}) }]
      : [];
  });

const standing = (whole: FoldState, records: readonly RecordNow[], today: string): readonly Chore[] =>
  standingOn(today, records)
    .filter(({ key }) => whole.chores_done[key] === undefined)
    .map(({ key, name, day, doer }): Chore => {
      const taken = whole.claims[key]?.person ?? doer;
      return { chore: 'standing', key, name, day, ...(taken ? { doer: taken } : {}) };
    });

const pails = (whole: FoldState, records: readonly RecordNow[], today: string): readonly Chore[] =>
  records
    .filter(({ type, values }) => type === 'animals' && values['archived'] !== true)
    .flatMap(({ id, values }): Chore[] => {
      const { state, key, take_up } = pail_of(id, whole, today);
      if (state !== 'ready' && state !== 'carried') return [];
      const named = state === 'ready' ? key : take_up;
      const doer = whole.claims[named]?.person;
      return [
        {
          chore: state === 'ready' ? 'carry_pail' : 'take_up',
          key: named,
          group: id,
          name: typeof values['name'] === 'string' ? values['name'] : '',
          day: today,
          ...(doer ? { doer } : {}),
        },
      ];
    });

const heaps = (whole: FoldState, records: readonly RecordNow[], today: string): readonly Chore[] =>
  heaps_to_turn(records, whole.facts, today)
    .filter(({ key }) => whole.chores_done[key] === undefined)
    .map(({ heap, day, key }): Chore => {
      const doer = whole.claims[key]?.person;
      return { chore: 'turn_heap', key, heap: heap.id, name: heap.name, day, ...(doer ? { doer } : {}) };
    });

/** All that is open, the longest waiting first. A suspect asks again at each look until somebody decides. */
export const choresOf = (
  whole: FoldState | undefined,
  lines: Lines,
  records: readonly RecordNow[],
  today: string,
): readonly Chore[] =>
  whole === undefined
    ? []
    : [
        ...undecided(whole),
        ...toCarryOut(whole, today),
        ...pickOvers(whole, lines),
        ...standing(whole, records, today),
        ...pails(whole, records, today),
        ...heaps(whole, records, today),
      ].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));

/** Chores of the person: theirs, and those nobody has. What waits for a decision is every adult's. */
export const isFor = (chore: Chore, person: Id | undefined): boolean =>
  chore.chore === 'decide' || chore.doer === undefined || chore.doer === person;
