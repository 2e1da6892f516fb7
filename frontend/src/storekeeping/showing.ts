/** A lot as people and tables read it, as of a day (F12 to F18). Twin: `homestead/storekeeping/showing.py`. */
import { type Both, filled, type Maybe, NEAR } from './amounts.ts';
import { day_number, day_text, winter_of } from './days.ts';
import { edible_grams, refuse_share } from './edible.ts';
import { COUNTED_DAYS, known_as, shown_amount } from './known.ts';
import type { Decided, Doubt, Lot } from './lot.ts';
import type { Event } from './order.ts';
import type {
  Amount,
  DecisionState,
  Flag,
  LotRecord,
  LotState,
  Mark,
  PastEntry,
  SeedKept,
  Setting,
  StandingFinding,
  SuspectState,
} from './state.ts';
import { held, standing_decision, state_of } from './suspects.ts';
import { tallies_of } from './tallies.ts';

interface Food {
  readonly seed: SeedKept;
  readonly held: Amount;
  readonly food: Amount;
}

/** F13: food = there - seed - suspects, in each measure. */
function food_of(lot: Lot, shown: Both): Food {
  const kept = filled(lot.seed.pieces, lot.seed.grams, lot.ratio);
  const seed = {
    pieces: at_most(kept.pieces, shown.pieces),
    grams: at_most(kept.grams, shown.grams),
    treated: lot.seed_treated,
  };
  const doubted = held(lot);
  return {
    seed,
    held: doubted,
    food: {
      pieces: food(shown.pieces, seed.pieces, doubted.pieces),
      grams: food(shown.grams, seed.grams, doubted.grams),
    },
  };
}

function at_most(amount: Maybe, there: Maybe): Maybe {
  return amount === null || there === null ? amount : Math.min(amount, there);
}

function food(there: Maybe, seed: Maybe, doubted: Maybe): Maybe {
  return there === null || seed === null || doubted === null ? null : Math.max(there - seed - doubted, 0);
}

/** described: what the lot's record, or its parent's, says in place of its birth. */
export function lot_state(
  lot: Lot,
  setting: Setting,
  described: LotRecord,
  past: readonly PastEntry[],
  today: number,
): LotState {
  const { origin } = lot;
  const known = known_as(lot, today);
  const shown = shown_amount(lot, today, known);
  const of_food = food_of(lot, shown);
  const refuse = refuse_share(origin.crop, setting.figures[origin.crop] ?? {}, today - origin.put_away_day);
  const photos = past.filter((entry) => entry.counts).flatMap((entry) => entry.photos);
  return {
    id: lot.id,
    crop: origin.crop,
    variety: described.variety ?? origin.variety,
    label: described.label ?? origin.label,
    code: described.code ?? origin.code,
    parent: origin.parent,
    born_by: origin.birth.kind,
    method: origin.method,
    space: lot.space,
    spot: lot.spot,
    pack: lot.pack,
    put_away_day: day_text(origin.put_away_day),
    born_day: day_text(origin.birth.day),
    winter: described.winter ?? winter_of(origin.put_away_day, setting.hemisphere),
    curing: lot.curing,
    cures_until: origin.cures_until,
    keeps_until: origin.keeps_until,
    pieces: lot.pieces,
    grams: lot.grams,
    ratio: lot.ratio,
    own_measure: lot.own_measure,
    known,
    counted_until: known === 'counted' ? counted_until(lot) : null,
    shown,
    seed: of_food.seed,
    held: of_food.held,
    food: of_food.food,
    edible_grams: edible_grams(of_food.food.grams, refuse),
    asks_count: lot.asks_count || below_nought(lot),
    finished: lot.finished,
    tallies: tallies_of(lot),
    suspects: [...lot.suspects.values()].map((doubt) => suspect_state(lot, doubt)),
    standing: standing_findings(lot),
    last_look: mark(lot.last_look),
    last_count: lot.last_count === null ? null : mark(lot.last_count),
    last_entry: mark(lot.last_entry),
    look_on: look_on(lot),
    first_photo: photos[0] ?? null,
    last_photo: photos.at(-1) ?? null,
    history: [...past],
  };
}

function counted_until(lot: Lot): string | null {
  return lot.last_count === null ? null : day_text(lot.last_count.day + COUNTED_DAYS);
}

function below_nought(lot: Lot): boolean {
  return (lot.pieces ?? 0) < -NEAR || (lot.grams ?? 0) < -NEAR;
}

function mark(event: Event): Mark {
  return { entry: event.id, when_ms: event.when_ms, day: day_text(event.day) };
}

/** F18: what the last look saw, less what went out since, and the findings of open suspects. */
function standing_findings(lot: Lot): StandingFinding[] {
  const standing = lot.standing.map(({ finding, event, pieces, looked }) => ({
    finding,
    entry: event.id,
    pieces,
    looked,
    share: share(pieces, looked),
    suspect: false,
  }));
  const looked = looked_last(lot);
  for (const doubt of lot.suspects.values()) {
    if (state_of(doubt) !== 'open') continue;
    const { pieces } = doubt;
    for (const finding of doubt.event.body.findings) {
      standing.push({
        finding,
        entry: doubt.event.id,
        pieces,
        looked,
        share: share(pieces, looked),
        suspect: true,
      });
    }
  }
  return standing;
}

function share(pieces: Maybe, looked: Maybe): Maybe {
  return pieces === null || looked === null || looked <= 0 ? null : Math.min(pieces / looked, 1);
}

/** Pieces the last look saw; without a number those that are there. */
function looked_last(lot: Lot): Maybe {
  const look = lot.last_look;
  return (look.kind === 'inspection' ? look.body.looked : undefined) ?? lot.pieces;
}

/** F17: the earliest day a standing decision asks to look again, not looked at on that day or since. */
function look_on(lot: Lot): string | null {
  let earliest: string | null = null;
  for (const doubt of lot.suspects.values()) {
    const day = standing_decision(doubt)?.event.body.look_on;
    const state = state_of(doubt);
    if (day === undefined || (state !== 'kept' && state !== 'to_do')) continue;
    if (day_number(day) > lot.last_look.day && (earliest === null || day < earliest)) earliest = day;
  }
  return earliest;
}

function suspect_state(lot: Lot, doubt: Doubt): SuspectState {
  const { event } = doubt;
  const standing = standing_decision(doubt);
  return {
    id: event.id,
    lot: lot.id,
    person: event.written.person,
    when_ms: event.when_ms,
    day: day_text(event.day),
    state: state_of(doubt),
    lies: event.body.lies,
    findings: event.body.findings,
    ...filled(doubt.pieces, doubt.grams, lot.ratio),
    photos: event.written.photos ?? [],
    decisions: doubt.decisions.map((decided) => decision_state(decided, decided === standing)),
  };
}

function decision_state({ event, done }: Decided, stands: boolean): DecisionState {
  const { body } = event;
  return {
    id: event.id,
    person: event.written.person,
    when_ms: event.when_ms,
    do: body.do,
    animals: body.animals ?? null,
    doer: body.doer ?? null,
    by: body.by ?? null,
    look_on: body.look_on ?? null,
    with_out: body.out !== undefined,
    stands,
    done,
  };
}

export function past_entry(event: Event, counts: boolean, flags: Flag[]): PastEntry {
  return {
    id: event.id,
    kind: event.kind,
    person: event.written.person,
    when_ms: event.when_ms,
    day: day_text(event.day),
    counts,
    struck_by: event.struck_by,
    flags,
    photos: event.written.photos ?? [],
  };
}

/**
 * A part is described as the lot it came from, but for its own code and what its own record says.
 * A field left empty in a record says nothing.
 */
export function described_as(
  lot: Lot,
  lots: ReadonlyMap<string, Lot>,
  records: Readonly<Record<string, LotRecord>>,
): LotRecord {
  const parent = lot.origin.parent === null ? undefined : lots.get(lot.origin.parent);
  const { code: _its_own, ...past } = parent === undefined ? {} : described_as(parent, lots, records);
  const own = Object.entries(records[lot.id] ?? {}).filter(([, value]) => Boolean(value));
  return { ...past, ...Object.fromEntries(own) };
}
