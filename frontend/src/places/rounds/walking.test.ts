import { beforeEach, describe, expect, test } from 'vitest';
import type { Draft, DraftStep, Line, NewEntry, Outcome } from '../../ledger/index.ts';
import { begin, type Walk } from './draft.ts';
import { pickOverLater, setFindings, setLooked, turnTo } from './lotstep.ts';
import { Walking, type Footing } from './walking.svelte.ts';

/** A ledger in memory that keeps entries and drafts together, or, when full, neither. */
class Shelf {
  readonly entries: NewEntry[] = [];
  readonly drafts = new Map<string, Walk>();
  full = false;
  #next = 0;

  readonly footing: Footing = {
    ledger: {
      mint_id: () => `id${++this.#next}`,
      record_all: (entries: readonly NewEntry[], draft?: DraftStep) => this.#record(entries, draft),
      drafts: {
        put: async ({ id, kind, value }) => {
          this.drafts.set(id, JSON.parse(JSON.stringify(value)) as Walk);
          return { ok: true, value: { id, kind, value, changed_at: '' } satisfies Draft };
        },
        drop: async (id) => void this.drafts.delete(id),
      },
    },
    plan: () => ({ there: 300, looked: 30, whole: false }),
    left: () => ({ pieces: 300, grams: 41_000 }),
    part_cut: () => undefined,
    may_write_stock: () => true,
    now: () => '2026-01-20T17:00:00.000Z',
    tomorrow: () => '2026-01-21',
  };

  async #record(entries: readonly NewEntry[], draft?: DraftStep): Promise<Outcome<readonly Line[]>> {
    if (this.full) return { ok: false, why: 'store_full' };
    this.entries.push(...entries);
    if (draft?.put) this.drafts.set(draft.put.id, JSON.parse(JSON.stringify(draft.put.value)) as Walk);
    return { ok: true, value: [] };
  }
  get kinds(): readonly string[] {
    return this.entries.map(({ kind }) => kind);
  }
}

const fresh = (lots: readonly string[], along: readonly string[] = []) =>
  begin({ round: 'r', space: 's', now: '2026-01-20T17:00:00.000Z', writer: 'ana', with: along, lots });

let shelf: Shelf;
let walking: Walking;
beforeEach(async () => {
  shelf = new Shelf();
  walking = new Walking(shelf.footing, fresh(['a', 'b']));
  await walking.enter({ space: 's', round: 'r', temp_c: 2.5 });
});

describe('walking', () => {
  test('the reading is kept on the way in; without one nothing is written', async () => {
    expect(shelf.kinds).toEqual(['reading']);
    const silent = new Shelf();
    await new Walking(silent.footing, fresh(['a'])).enter(undefined);
    expect(silent.kinds).toEqual([]);
    expect(silent.drafts.get('round:r')?.page).toBe('lot');
  });
  test('all sound is one entry naming the round, and the draft stands at the next lot', async () => {
    await walking.looked();
    expect(shelf.entries[1]).toMatchObject({
      kind: 'inspection',
      body: { lot: 'a', round: 'r', looked: 30 },
    });
    expect(shelf.drafts.get('round:r')?.hand?.lot).toBe('b');
    expect(walking.walk.kept?.told).toEqual({ what: 'sound', looked: 30 });
  });
  test('each step of the hand is in the draft before anything is kept', async () => {
    await walking.setHand((hand) => setLooked(turnTo(hand, 'out'), 34));
    expect(shelf.drafts.get('round:r')?.hand).toMatchObject({ page: 'out', looked: 34, touched: true });
    expect(shelf.kinds).toEqual(['reading']);
  });
  test('the last lot writes the closing line under the id made at the beginning', async () => {
    await walking.looked();
    await walking.notLooked('no_time');
    expect(shelf.entries.at(-1)).toEqual({
      id: 'r',
      kind: 'round',
      body: { space: 's', began_at: '2026-01-20T17:00:00.000Z', ended_at: '2026-01-20T17:00:00.000Z' },
    });
    expect(walking.walk).toMatchObject({ page: 'end', closed: true });
  });
  test('undo strikes and opens the lot; walked to the end again the closing line is not written twice', async () => {
    await walking.looked();
    await walking.looked();
    await walking.undo();
    expect(shelf.entries.at(-1)).toMatchObject({
      kind: 'strike',
      strikes: shelf.entries[2]?.id,
    });
    expect(walking.hand?.lot).toBe('b');
    await walking.looked();
    expect(shelf.kinds.filter((kind) => kind === 'round')).toHaveLength(1);
  });
  test('picking over later is a claim on a chore named after the inspection, struck with it', async () => {
    await walking.setHand((hand) =>
      pickOverLater(
        setFindings(hand, ['white_mould'], () => ({ way: 'out', to: 'compost' })),
        shelf.footing.plan('a'),
        'chore',
      ),
    );
    await walking.looked();
    const [, seen, claim] = shelf.entries;
    expect(claim).toMatchObject({ kind: 'claim', body: { chore: `pick_over/${seen?.id}/2026-01-21` } });
    await walking.undo();
    expect(shelf.entries.slice(3).map(({ strikes }) => strikes)).toEqual([seen?.id, claim?.id]);
  });
  test('who walks along is named on every entry', async () => {
    const two = new Walking(shelf.footing, fresh(['a'], ['wil']));
    await two.enter(undefined);
    await two.looked();
    expect(shelf.entries.slice(1).map((entry) => entry.with)).toEqual([['wil'], ['wil']]);
  });
  test('a suspect carries its photo and leaves the lot in the hand', async () => {
    await walking.setHand((hand) => ({
      ...hand,
      page: 'unsure',
      unsure: { findings: ['mould'], photo: 'abc' },
    }));
    const id = await walking.suspect('set_apart');
    expect(shelf.entries.at(-1)).toMatchObject({
      id,
      kind: 'suspect',
      photos: ['abc'],
      body: { lot: 'a', lies: 'set_apart' },
    });
    expect(walking.hand).toMatchObject({ lot: 'a', page: 'look' });
  });
  test('what could not be kept stays in the hand and says why', async () => {
    shelf.full = true;
    expect(await walking.looked()).toBe(false);
    expect(walking.trouble).toBe('store_full');
    expect(walking.hand?.lot).toBe('a');
    shelf.full = false;
    expect(await walking.looked()).toBe(true);
    expect(walking.trouble).toBeUndefined();
  });
  test('a second touch while the first is being kept writes nothing', async () => {
    const both = await Promise.all([walking.looked(), walking.looked()]);
    expect(both).toEqual([true, false]);
    expect(shelf.kinds).toEqual(['reading', 'inspection']);
  });
  test('done with, the draft goes and the entries stay', async () => {
    await walking.looked();
    await walking.leave();
    expect(shelf.drafts.size).toBe(0);
    expect(shelf.kinds).toEqual(['reading', 'inspection']);
  });
});
