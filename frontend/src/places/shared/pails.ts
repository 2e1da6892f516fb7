/** The animals' pails: what was put in since somebody last looked, and whether they may be carried. Pure. */
import type { ChoreDone, Fact, Went } from '../../storekeeping/state.ts';
import type { PailBody } from '../../storekeeping/shapes.ts';
import { kept_in } from '../../storekeeping/law.ts';
import type { Body, Id, NewEntry } from '../../ledger/index.ts';

/**
 * `empty`; `full`: an adult must look; `ready`: it may be carried; `carried`: what is left is to be taken up; `barred`: they get
 * none of it now, so what waits in it is compost.
 */
export type PailState = 'empty' | 'full' | 'ready' | 'carried' | 'barred';

export interface Pail {
  readonly group: Id;
  readonly state: PailState;
  /** Rows of scraps in it, for `full`; what was in it, for the rest. */
  readonly rows: readonly Went[];
  /** The look it rests on. */
  readonly look: Fact | undefined;
  /** The chore of carrying, and of taking up, on that day. */
  readonly key: string;
  readonly take_up: string;
}

export const pail_key = (look: Id, day: string): string => `pail/${look}/${day}`;
export const take_up_key = (look: Id, day: string): string => `take_up/${look}/${day}`;

export const is_pail = (fact: Fact): fact is Fact & { body: PailBody } => fact.kind === 'pail';

/** Only what was written as scraps waits in a pail; what a round sends to the animals is a chore or was done on the spot. */
const in_pail = (row: Went, group: Id): boolean =>
  row.kind === 'scrap' && row.way === 'animals' && row.animals === group && !row.accident;

/** Ill or under treatment to the last day that was given, or birds kept in by order: what waits goes to them no more. */
export function is_barred(values: Body, household: Body, today: string): boolean {
  const until = values['withheld_until'];
  const kind = typeof values['kind'] === 'string' ? values['kind'] : '';
  return (
    values['withheld'] === true ||
    (typeof until === 'string' && today <= until) ||
    kept_in(
      { housing_order: household['housing_order'] === true },
      { kind, housed: values['housed'] === true },
    )
  );
}

/** A pail that was put in yesterday and not carried is looked into again: nothing ripens in it. */
export function pail_of(
  group: Id,
  told: {
    readonly went: readonly Went[];
    readonly facts: readonly Fact[];
    readonly chores_done: Readonly<Record<string, ChoreDone>>;
  },
  today: string,
  barred = false,
): Pail {
  const looks = told.facts.filter((fact) => is_pail(fact) && fact.body.animals === group);
  const look = looks.at(-1);
  const since = told.went.filter((row) => in_pail(row, group) && row.when_ms > (look?.when_ms ?? 0));
  const before = looks.at(-2)?.when_ms ?? 0;
  const key = pail_key(look?.id ?? '', today);
  const take_up = take_up_key(look?.id ?? '', today);
  const pail = { group, look, key, take_up };
  const todays = since.filter((row) => row.day === today);
  if (todays.length > 0) return { ...pail, state: barred ? 'barred' : 'full', rows: todays };
  if (look?.day !== today || (is_pail(look) && look.body.mixed)) return { ...pail, state: 'empty', rows: [] };
  const rows = told.went.filter(
    (row) => in_pail(row, group) && row.when_ms > before && row.when_ms <= look.when_ms,
  );
  if (!told.chores_done[key]) return { ...pail, state: barred ? 'barred' : 'ready', rows };
  return { ...pail, state: told.chores_done[take_up] ? 'empty' : 'carried', rows };
}

/**
 * A mixed pail is compost: what was written as gone to the group is struck out and written again as compost, each under its
 * own entry, so that both stay readable.
 */
export function mixed_entries(pail: Pail, body_of: (entry: Id) => Body | undefined): readonly NewEntry[] {
  const entries = [...new Set(pail.rows.map((row) => row.entry))];
  const anew = entries.flatMap((entry): NewEntry[] => {
    const body = body_of(entry);
    if (!body || !Array.isArray(body['went'])) return [];
    const went = body['went'].map((one) => to_compost(one as Body, pail.group));
    return [
      { kind: 'strike', body: {}, strikes: entry },
      { kind: 'scrap', body: { ...body, went } },
    ];
  });
  return [...anew, { kind: 'pail', body: { animals: pail.group, mixed: true } }];
}

function to_compost(went: Body, group: Id): Body {
  if (went['animals'] !== group) return went;
  return Object.fromEntries(
    Object.entries({ ...went, step: 'compost' }).filter(([name]) => name !== 'animals'),
  );
}
