/** A lot being put away: what, how packed, where, how much. The next of the same keeps all but the number. */
import { entry_of } from '../shared/entry';
import { house } from '../shared/house.svelte';
import { table_crop } from '../shared/names';
import { text } from '../shared/records';
import type { PutAwayBody } from '../../storekeeping/shapes';
import type { Line, NewEntry, Outcome } from '../../ledger';
import { AmountForm, told_by } from '../shared/amount.svelte';
import { days_on } from './curing';
import { commonest_first, once_each } from './often';

/** "UH-444" from the household's prefix and a number of this phone's block; the server writes it alike. */
export const code_of =
  (prefix: string) =>
  (n: number): string =>
    `${prefix}${n}`;

/** The number in `?label=412`; undefined where none or no number is told. */
export const number_of = (told: string | null): number | undefined =>
  told !== null && /^[1-9]\d{0,8}$/.test(told) ? Number(told) : undefined;

const MOST_STORES = ['potato', 'carrot', 'onion', 'cabbage', 'apple', 'beet', 'squash', 'garlic', 'celeriac'];

/** Crops of which what is stored is what is planted. Common practice, no source. */
const PLANTED_AS_STORED: readonly string[] = [
  ...['potato', 'sweet_potato', 'jerusalem_artichoke', 'horseradish'],
  ...['onion', 'shallot', 'garlic', 'bean_dry', 'dry_pea', 'grain'],
];

/** Where the tables know of no curing, a hand sets the days from here. */
const SOME_DAYS = 14;

export class Putting {
  crop = $state<string | undefined>();
  variety = $state('');
  pack = $state<string | undefined>();
  cures = $state(false);
  /** How long it is thought to cure [days]; the table's longest unless a hand sets it. */
  cure_days = $state(0);
  space = $state<string | undefined>();
  spot = $state('');
  /** All of it is for planting: no food, no feed. */
  for_seed = $state(false);
  /** It was bought as seed, or is dressed. */
  treated = $state(false);
  amount = $state.raw(new AmountForm());
  photos = $state.raw<readonly string[]>([]);
  /** The number of a blank label, printed before: this lot gets it, not the next of the block. */
  label = $state<number | undefined>();

  /** Crops put away before, the commonest first; then those most stores hold. */
  readonly usual_crops = $derived(
    once_each([...commonest_first(house.all_lots.map((lot) => lot.crop)), ...MOST_STORES]).slice(0, 9),
  );
  readonly varieties = $derived(
    commonest_first(
      house.all_lots
        .filter((lot) => lot.crop === this.crop && lot.variety !== null)
        .map((lot) => lot.variety ?? ''),
    ).slice(0, 4),
  );
  readonly prefix = $derived(text(house.household?.values['code_prefix']));
  readonly number_set = $derived(this.amount.shown > 0);
  readonly ready = $derived(this.crop !== undefined && this.space !== undefined && this.number_set);

  /** A crop chosen brings what was done with it last: variety, pack, space. */
  choose(crop: string): void {
    this.crop = crop;
    const last = house.all_lots.filter((lot) => lot.crop === crop).at(-1);
    this.variety = last?.variety ?? '';
    this.pack = last?.pack ?? this.packs[0];
    this.space = last?.space ?? this.space ?? house.spaces[0]?.id;
    this.cures = false;
    this.for_seed = this.treated = false;
    this.cure_days = house.reference.cure_of(table_crop(crop))?.high ?? SOME_DAYS;
    this.amount = new AmountForm(told_by(crop));
  }
  get may_be_seed(): boolean {
    return PLANTED_AS_STORED.includes(table_crop(this.crop ?? ''));
  }
  get packs(): readonly string[] {
    if (this.crop === undefined) return [];
    const all = house.reference.packs_of(this.crop).map((one) => one.pack);
    return once_each(all).slice(0, 8);
  }
  body(): PutAwayBody {
    return {
      crop: this.crop ?? '',
      space: this.space ?? '',
      ...(this.variety.trim() ? { variety: this.variety.trim() } : {}),
      ...(this.cures ? { cures_until: days_on(house.today, this.cure_days) } : {}),
      ...(this.pack && !this.cures ? { pack: this.pack } : {}),
      ...(this.spot.trim() ? { spot: this.spot.trim() } : {}),
      ...this.amount.body,
    };
  }
  async keep(): Promise<Outcome<readonly Line[]>> {
    const id = house.ledger.mint_id();
    const more = { id, ...(this.photos.length > 0 ? { photos: this.photos } : {}) };
    const code = code_of(this.prefix);
    if (this.label === undefined)
      return house.record_all([entry_of('put_away', this.body(), { code, ...more }), ...this.#aside(id)]);
    const left_out = await house.ledger.leave_code_out(this.label);
    if (!left_out.ok) return left_out;
    const body = { ...this.body(), code: code(this.label) };
    return house.record_all([entry_of('put_away', body, more), ...this.#aside(id)]);
  }
  /** Seed is set aside in the same transaction: at no moment is it offered as food. */
  #aside(lot: string): readonly NewEntry[] {
    if (!this.for_seed) return [];
    const treated = this.treated ? { treated: true } : {};
    return [entry_of('set_aside', { lot, ...this.amount.body, ...treated })];
  }
  /** The next of the same: only the number is new, and begins at the last one. */
  again(): void {
    const { by, shown, guessed, vessel } = this.amount;
    this.amount = new AmountForm(by, shown);
    this.amount.guessed = guessed;
    this.amount.vessel = vessel;
    this.photos = [];
    this.label = undefined;
  }
}
