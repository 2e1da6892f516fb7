/**
 * The round being walked: its state on the screen, each step kept in the draft, each act kept as entries together with
 * the draft in one transaction. What could not be kept leaves the hand as it was and says why.
 */
import type { Body, DraftStep, Hash, Id, Json, Ledger, NewEntry, Trouble } from '../../ledger/index.ts';
import {
  allGone,
  inspectionBody,
  notLookedBody,
  roundBody,
  suspectBody,
  type GoneTo,
  type WhyNot,
} from './bodies.ts';
import { pickOverKey } from './chores.ts';
import {
  decided,
  DRAFT_KIND,
  draftId,
  goIn,
  pass,
  resume,
  setAir,
  setAlong,
  setApart,
  setHand,
  setLots,
  settle,
  undo,
  type AirInHand,
  type KeptWhat,
  type Walk,
} from './draft.ts';
import type { Lies } from './lies.ts';
import { piecesGoing, toldPieces, type LotInHand } from './lotstep.ts';
import type { LookPlan } from './sample.ts';

/** What a walk stands on: the ledger, and what the screens know of lots. */
export interface Footing {
  readonly ledger: Pick<Ledger, 'mint_id' | 'record_all'> & {
    readonly drafts: Pick<Ledger['drafts'], 'put' | 'drop'>;
  };
  readonly plan: (lot: Id) => LookPlan;
  readonly left: (lot: Id) => { readonly pieces?: number; readonly grams?: number };
  /** The part that is cut off for a finding, where the ladder tells parts apart. */
  readonly part_cut: (lot: Id, finding: string) => string | undefined;
  /** Whoever is writing may count and cull. */
  readonly may_write_stock: () => boolean;
  readonly now: () => string;
  readonly tomorrow: () => string;
}

/** Controls hand over reactive lists; the store takes plain ones only. */
const plain = <T>(value: T): T => $state.snapshot(value as unknown) as T;

const step = (walk: Walk): DraftStep['put'] => ({
  id: draftId(walk.round),
  kind: DRAFT_KIND,
  value: plain(walk) as unknown as Json,
});

/** A hand that feels it: one short buzz where the phone allows it. */
const buzz = (): void => {
  if (typeof navigator !== 'undefined' && 'vibrate' in navigator) navigator.vibrate(25);
};

export class Walking {
  #walk = $state.raw<Walk>() as Walk;
  #trouble = $state.raw<Trouble | undefined>();
  #busy = false;
  readonly #footing: Footing;
  #unwritten: DraftStep['put'] | undefined;
  #drafted: Promise<void> | undefined;

  constructor(footing: Footing, walk: Walk) {
    this.#footing = footing;
    this.#walk = walk;
  }

  get walk(): Walk {
    return this.#walk;
  }
  /** Why the last act was not kept. */
  get trouble(): Trouble | undefined {
    return this.#trouble;
  }
  get hand(): LotInHand | undefined {
    return this.#walk.hand;
  }

  /** A step of the draft alone. Steps are written one after the other; a held key writes the newest only. */
  #step(next: Walk): Promise<void> {
    this.#walk = next;
    this.#unwritten = step(next);
    this.#drafted ??= this.#write();
    return this.#drafted;
  }
  async #write(): Promise<void> {
    try {
      while (this.#unwritten) {
        const put = this.#unwritten;
        this.#unwritten = undefined;
        const kept = await this.#footing.ledger.drafts.put(put);
        if (!kept.ok) this.#trouble = kept.why;
      }
    } finally {
      this.#drafted = undefined;
    }
  }

  /** Entries and the draft as it is after them, all or none. A second touch meanwhile writes nothing. */
  async #keep(entries: readonly NewEntry[], next: Walk): Promise<boolean> {
    if (this.#busy) return false;
    this.#busy = true;
    try {
      await this.#drafted;
      return await this.#record(entries, next);
    } finally {
      this.#busy = false;
    }
  }

  /** Passing the last lot writes the closing line with it. */
  async #record(entries: readonly NewEntry[], next: Walk): Promise<boolean> {
    const { with: along } = this.#walk;
    const closes = next.page === 'end' && next.closed !== true;
    const after: Walk = closes ? { ...next, closed: true } : next;
    const closing = roundBody(next.space, next.began_at, next.ended_at ?? this.#footing.now());
    const all = [...entries, ...(closes ? [{ id: next.round, kind: 'round', body: closing }] : [])];
    const put = step(after);
    const kept = await this.#footing.ledger.record_all(
      all.map((entry) => plain(along.length > 0 ? { ...entry, with: along } : entry)),
      put ? { put } : {},
    );
    this.#trouble = kept.ok ? undefined : kept.why;
    if (kept.ok) {
      this.#walk = after;
      buzz();
    }
    return kept.ok;
  }

  #entry(kind: string, body: Body, photos: readonly Hash[] = []): NewEntry & { readonly id: Id } {
    return { id: this.#footing.ledger.mint_id(), kind, body, ...(photos.length > 0 ? { photos } : {}) };
  }
  get #place() {
    return { round: this.#walk.round, space: this.#walk.space };
  }

  setAir = (air: AirInHand): Promise<void> => this.#step(setAir(this.#walk, air));
  /** For the minutes one has: the lots from the front of the order that they are enough for. */
  setLots = (lots: readonly Id[], minutes?: number): Promise<void> =>
    this.#step(setLots(this.#walk, lots, minutes));
  setAlong = (along: readonly Id[]): Promise<void> => this.#step(setAlong(this.#walk, along));
  /** Change the lot in the hand; the act before it can be undone no longer. */
  setHand = (change: (hand: LotInHand) => LotInHand): Promise<void> => {
    const { hand } = this.#walk;
    return hand === undefined ? Promise.resolve() : this.#step(settle(setHand(this.#walk, change(hand))));
  };

  /** Past the dials, with what was read. */
  async enter(reading: Body | undefined): Promise<boolean> {
    const entry = reading && this.#entry('reading', reading);
    const next = goIn(this.#walk, entry?.id, this.#footing.plan, this.#footing.now());
    if (entry === undefined && next.page !== 'end') {
      await this.#step(next);
      return true;
    }
    return this.#keep(entry ? [entry] : [], next);
  }

  async #pass(entries: readonly (NewEntry & { readonly id: Id })[], told: KeptWhat): Promise<boolean> {
    const done = { told, entries: entries.map(({ id }) => id) };
    return this.#keep(entries, pass(this.#walk, done, this.#footing.plan, this.#footing.now()));
  }

  /** What was seen of the lot in the hand; "all sound" where nothing was. */
  async looked(): Promise<boolean> {
    const { hand } = this.#walk;
    if (hand === undefined) return false;
    const part = (finding: string) => this.#footing.part_cut(hand.lot, finding);
    const seen = this.#entry('inspection', inspectionBody(hand, this.#place, part), hand.photos);
    const later =
      hand.pick_over === 'chore' && !hand.whole
        ? [this.#entry('claim', { chore: pickOverKey(seen.id, this.#footing.tomorrow()) })]
        : [];
    const looked = toldPieces(hand);
    const told: KeptWhat =
      hand.goings.length === 0
        ? { what: 'sound', ...(looked === undefined ? {} : { looked }) }
        : {
            what: 'seen',
            out: piecesGoing(hand, 'out'),
            trimmed: piecesGoing(hand, 'trim'),
            left: piecesGoing(hand, 'left'),
          };
    return this.#pass([seen, ...later], told);
  }

  async notLooked(why: WhyNot): Promise<boolean> {
    const { hand } = this.#walk;
    if (hand === undefined) return false;
    return this.#pass([this.#entry('inspection', notLookedBody(hand.lot, this.#place, why))], {
      what: 'not_looked',
      why,
    });
  }

  async gone(to: GoneTo): Promise<boolean> {
    const { hand } = this.#walk;
    if (hand === undefined) return false;
    const { kind, body } = allGone(
      hand.lot,
      this.#place,
      to,
      this.#footing.left(hand.lot),
      this.#footing.may_write_stock(),
    );
    return this.#pass([this.#entry(kind, body)], { what: 'gone' });
  }

  /** The suspect is kept; the lot stays in the hand. Its id, to decide on it at once. */
  async suspect(lies: Lies): Promise<Id | undefined> {
    const { hand } = this.#walk;
    if (hand?.unsure === undefined) return undefined;
    const { photo, without_photo } = hand.unsure;
    const body = suspectBody(hand.lot, this.#place, hand.unsure, lies);
    const entry = {
      ...this.#entry('suspect', body, photo ? [photo] : []),
      ...(without_photo && { without_photo }),
    };
    const kept = await this.#keep([entry], setApart(this.#walk, entry.id, lies, this.#footing.now()));
    return kept ? entry.id : undefined;
  }

  /** Lots that are no more (struck, or finished elsewhere) fall out of the walk. */
  pruned = (still_there: (lot: Id) => boolean): Promise<void> =>
    this.#step(resume(this.#walk, still_there, this.#footing.plan, this.#footing.now()));

  /** A decision written on the walk belongs to what it did. */
  decided = (decision: Id, on: string): Promise<void> => this.#step(decided(this.#walk, decision, on));

  /** The last act is struck out; the lot is in the hand as it was. */
  async undo(): Promise<boolean> {
    const { kept } = this.#walk;
    if (kept === undefined) return false;
    const strikes = kept.entries.map((id): NewEntry => ({ ...this.#entry('strike', {}), strikes: id }));
    return this.#keep(strikes, undo(this.#walk, this.#footing.now()));
  }

  /** Done with: the draft goes, what was kept stays. */
  async leave(): Promise<void> {
    await this.#drafted;
    await this.#footing.ledger.drafts.drop(draftId(this.#walk.round));
  }
}
