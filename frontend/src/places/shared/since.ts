/**
 * What became of a lot since a sheet was worked out: the phone's own fold now less its own fold of the lines the sheet
 * knew. Only lots with a line the sheet did not know are folded again. Pure.
 */
import type { Id, Line } from '../../ledger';
import { fold_all, lot_at } from '../../storekeeping/fold';
import type { LotState, Setting } from '../../storekeeping/state';

/** What the phone holds. */
export interface Held {
  readonly lines: ReadonlyMap<Id, Line>;
  readonly lot: (id: Id) => LotState | undefined;
  readonly setting: Setting;
  readonly today: string;
}

/**
 * `behind`: the lot has lines the sheet did not know. `pieces`, `grams`: how much more there is now, mostly less; null where
 * one of the two is not known. `share`: what is there now of what was there then; 1 when nothing moved.
 */
export interface Since {
  readonly behind: boolean;
  readonly pieces: number | null;
  readonly grams: number | null;
  readonly share: number;
}

const NOTHING_MOVED: Since = { behind: false, pieces: 0, grams: 0, share: 1 };

const above_nought = (amount: number | null): number | null => amount && Math.max(amount, 0);
const less = (now: number | null, then: number | null): number | null =>
  now === null || then === null ? null : now - then;

/** Ids of all that was ever written of the lot and of those it was moved from. */
function written_of(lot: LotState, held: Held): Id[] {
  const ids = lot.history.flatMap((past) =>
    past.struck_by === null ? [past.id] : [past.id, past.struck_by],
  );
  const parent = lot.parent === null ? undefined : held.lot(lot.parent);
  return parent ? [...ids, ...written_of(parent, held)] : ids;
}

export function since(lot: LotState, as_of: number, held: Held): Since {
  const lines = written_of(lot, held).flatMap((id) => held.lines.get(id) ?? []);
  const known = lines.filter((line) => line.seq !== undefined && line.seq <= as_of);
  if (known.length === lines.length) return NOTHING_MOVED;
  const then = lot_at(fold_all(known, held.setting), lot.id, held.today);
  const now = { pieces: above_nought(lot.pieces), grams: above_nought(lot.grams) };
  const before = { pieces: above_nought(then?.pieces ?? 0), grams: above_nought(then?.grams ?? 0) };
  const [left, of] =
    now.grams !== null && before.grams !== null
      ? [now.grams, before.grams]
      : [now.pieces ?? 0, before.pieces ?? 0];
  return {
    behind: true,
    pieces: less(now.pieces, before.pieces),
    grams: less(now.grams, before.grams),
    share: lot.finished ? 0 : of > 0 ? left / of : 1,
  };
}
