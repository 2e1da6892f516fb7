/** An invented cellar for tests: entries as a phone writes them, folded. */
import type { Body, Id, Line } from '../../ledger/index.ts';
import { fold_all, state_at } from '../../storekeeping/fold.ts';
import type { FoldState, LotState, Setting } from '../../storekeeping/state.ts';
import type { Lines } from './entries.ts';

/** Garden figures of the tables' kind, made up: 100 g a carrot, 2 kg a cabbage. */
const FIGURES: Setting['figures'] = {
  carrot: { count_unit: 'kg', piece_g: 100 },
  cabbage: { count_unit: 'piece', piece_g: 2000 },
};
const SETTING: Setting = { zone: 'UTC', hemisphere: 'north', figures: FIGURES };

interface More {
  readonly id?: Id;
  readonly person?: Id;
  readonly strikes?: Id;
  readonly photos?: readonly string[];
}

export class Cellar {
  readonly lines = new Map<Id, Line>();
  #next = 0;

  /** An entry at that moment; its id, `kind` and a number where none is given. */
  write(kind: string, at: string, body: Body, { id, person = 'ana', strikes, photos }: More = {}): Id {
    this.#next += 1;
    const named = id ?? `${kind}${this.#next}`;
    this.lines.set(named, {
      standing: 'sent',
      seq: this.#next,
      written: {
        id: named,
        household: 'h',
        device: 'phone',
        device_no: this.#next,
        person,
        kind,
        schema: 1,
        happened_at: `${at}:00.000+00:00`,
        dated: 'clock',
        body,
        ...(strikes ? { strikes } : {}),
        ...(photos ? { photos } : {}),
      },
    });
    return named;
  }
  whole(today: string): FoldState {
    return state_at(fold_all(this.lines.values(), SETTING), today);
  }
  lot(id: Id, today: string): LotState {
    const lot = this.whole(today).lots[id];
    if (!lot) throw new Error(`no lot ${id}`);
    return lot;
  }
  get held(): Lines {
    return this.lines;
  }
}
