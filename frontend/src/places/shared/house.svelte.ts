/**
 * The household as the screens know it: one object, `house`, read by every place. It opens the ledger of the household this
 * phone belongs to, folds its lines to stock as they come, and keeps entries on behalf of whoever is writing.
 *
 *     house.lots, house.spaces, house.people, house.suspects, house.chores, house.sheets, house.status   (all reactive)
 *     const kept = await house.record('take', { lot, grams: 2000, for: 'eat' });                 // an Outcome
 *     if (!kept.ok) ... words().troubles[kept.why]                                               // the form stays filled
 */
import {
  access,
  open,
  type Change,
  type DraftStep,
  type Home,
  type Id,
  type Ledger,
  type Line,
  type NewEntry,
} from '../../ledger';
import type {
  Body,
  Conflict,
  NewEdit,
  Opened,
  Outcome,
  RecordNow,
  Sheet,
  Status,
  TrayLine,
} from '../../ledger';
import { reference, with_own, type OwnTables, type Reference } from '../../reference';
import type { BodyOf, Kind } from '../../storekeeping/shapes';
import type { LotState, OpenChore, Setting, SuspectState } from '../../storekeeping/state';
import { figures, tongue } from '../../words';
import {
  animals_of,
  by_role,
  grown,
  person_of,
  space_of,
  text,
  type Animals,
  type Person,
  type Space,
} from './records';
import { by_id, changed } from './by_id';
import { CatchingUp } from './catching_up';
import { KeptLots } from './kept_lots';
import type { Held } from './since';
import { folds_alike, lot_records, manner_of, own_figures, setting_of } from './setting';
import { Stock } from './stock.svelte';
import { when_idle } from './when_idle';

export type Phase = 'opening' | 'first' | 'open' | 'shut';
/** What an entry has beside its kind and body. */
export type More = Omit<NewEntry, 'kind' | 'body'>;

const NOTHING_SENT: Status = { to_send: 0, photos_to_send: 0, needs_you: 0 };
const NO_LINES: ReadonlyMap<Id, Line> = by_id([], String);
const MINUTE_MS = 60_000;
const MANY = 200;

class House {
  phase = $state<Phase>('opening');
  /** Why the store can't be opened, in phase `shut`. */
  why = $state<Extract<Opened, { ok: false }>['why'] | undefined>();
  home = $state.raw<Home | undefined>();
  now = $state.raw(new Date());
  lines = $state.raw(NO_LINES);
  records = $state.raw<readonly RecordNow[]>([]);
  sheets = $state.raw<readonly Sheet[]>([]);
  status = $state.raw<Status>(NOTHING_SENT);
  tray = $state.raw<readonly TrayLine[]>([]);
  conflicts = $state.raw<readonly Conflict[]>([]);
  /** The person who is writing, among `writers`. */
  writer_id = $state<Id | undefined>();
  writer_ids = $state.raw<readonly Id[]>([]);
  /** Counts up with every change of drafts, so that a page that shows them reads them again. */
  drafts_changed = $state(0);
  photos_changed = $state(0);

  #ledger = $state.raw<Ledger | undefined>();
  #reference = $state.raw<Reference | undefined>();
  readonly #stock = new Stock();
  #folded_on: Setting | undefined;
  readonly #catching_up = new CatchingUp((ids: readonly Id[]) => this.#catch_up(ids));
  readonly #kept = new KeptLots();
  /** Until all lines are read, what comes waits; the lots shown are those kept from the last time. */
  #lines_read: Promise<void> = Promise.resolve();
  #stop: (() => void)[] = [];

  readonly household = $derived(this.records.find((record) => record.type === 'household'));
  readonly name = $derived(text(this.household?.values['name']) || (this.home?.name ?? ''));
  readonly today = $derived(figures().day_of(this.now));
  readonly #own = $derived.by(() => {
    const own = own_figures(this.records);
    return this.#reference && with_own(this.#reference, own.figures, own.crops);
  });
  /** What each of the household's own crops is like; '' where it is like none of the tables. */
  readonly likes: ReadonlyMap<Id, string> = $derived(
    new Map(this.#of('crop', ({ id, values }) => [id, text(values['like'])] as const)),
  );
  readonly #setting = $derived(setting_of(this.household, this.records, this.#own?.figures ?? {}));
  readonly all_spaces: readonly Space[] = $derived(
    this.#of('space', space_of).sort((a, b) => a.order - b.order || figures().compare(a.name, b.name)),
  );
  readonly spaces = $derived(this.all_spaces.filter((space) => !space.archived));
  readonly all_people: readonly Person[] = $derived(
    this.#of('person', person_of).sort((a, b) => by_role(a, b) || figures().compare(a.name, b.name)),
  );
  readonly people = $derived(this.all_people.filter((person) => !person.archived));
  readonly all_animals: readonly Animals[] = $derived(this.#of('animals', animals_of));
  readonly animals = $derived(this.all_animals.filter((group) => !group.archived));
  readonly writers = $derived(this.people.filter((person) => this.writer_ids.includes(person.id)));
  readonly writer = $derived(this.all_people.find((person) => person.id === this.writer_id));
  /** The phone's holder is a keeper: codes and the list of phones are asked for from such a phone only. */
  readonly keepers_phone = $derived(
    this.all_people.find((person) => person.id === this.writer_ids[0])?.role === 'keeper',
  );
  readonly is_grown = $derived(grown(this.writer?.role));
  /** Lots that stand and are not finished. */
  readonly lots: readonly LotState[] = $derived(
    [...this.#stock.lots.values()].filter((lot) => !lot.finished),
  );
  readonly all_lots: readonly LotState[] = $derived([...this.#stock.lots.values()]);
  /** Suspects that wait for a decision, the oldest first. */
  readonly suspects: readonly SuspectState[] = $derived(
    this.lots
      .flatMap((lot) => lot.suspects.filter((one) => one.state === 'open'))
      .sort((a, b) => a.when_ms - b.when_ms),
  );
  /** Everything the fold knows beside lots: tallies, facts, claims. */
  readonly whole = $derived(this.#stock.whole);
  /** Decisions still to be done. */
  readonly chores: readonly OpenChore[] = $derived(this.whole?.chores ?? []);

  #of<T>(type: string, read: (record: RecordNow) => T): T[] {
    return this.records.filter((record) => record.type === type).map(read);
  }

  /** Figures of crops and looking-over intervals, the household's own before the table's. */
  get own(): OwnTables {
    if (!this.#own) throw new Error('the tables are not loaded');
    return this.#own;
  }
  /** All the phone holds, to compare with what a sheet knew. */
  get held(): Held {
    return { lines: this.lines, lot: (id) => this.lot(id), setting: this.#setting, today: this.today };
  }
  get open(): boolean {
    return this.phase === 'open';
  }
  get demo(): boolean {
    return this.home?.demo === true;
  }
  /** The ledger of the open household. Throws before one is open: pages are shown only then. */
  get ledger(): Ledger {
    if (!this.#ledger) throw new Error('no household is open');
    return this.#ledger;
  }
  /** The tables in the language spoken. Throws before a household is open. */
  get reference(): Reference {
    if (!this.#reference) throw new Error('the tables are not loaded');
    return this.#reference;
  }
  lot(id: Id): LotState | undefined {
    return this.#stock.lots.get(id);
  }
  lots_in(space: Id): readonly LotState[] {
    return this.lots.filter((lot) => lot.space === space);
  }
  space(id: Id): Space | undefined {
    return this.all_spaces.find((space) => space.id === id);
  }
  person(id: Id): Person | undefined {
    return this.all_people.find((person) => person.id === id);
  }
  group(id: Id): Animals | undefined {
    return this.all_animals.find((group) => group.id === id);
  }
  sheet(kind: string): Sheet | undefined {
    return this.sheets.find((sheet) => sheet.kind === kind);
  }

  /** At start: the household opened last, or the first run. */
  async begin(): Promise<void> {
    const homes = await access().homes();
    const last = homes[0];
    if (last) await this.enter(last);
    else this.phase = 'first';
  }

  async enter(home: Home): Promise<void> {
    this.leave();
    this.phase = 'opening';
    const [opened, tables] = await Promise.all([open(home.household), reference(tongue.language)]);
    if (!opened.ok) {
      this.why = opened.why;
      this.phase = 'shut';
      return;
    }
    this.home = home;
    this.#ledger = opened.ledger;
    this.#reference = tables;
    await this.#reread();
    const clock = setInterval(() => this.#tick(), MINUTE_MS);
    this.#stop = [
      opened.ledger.subscribe((change) => void this.#heard(change)),
      opened.ledger.start(),
      () => clearInterval(clock),
    ];
    // What was told between the first reading and the listening, such as a new version found, is read now.
    void this.#read_rest();
    this.phase = 'open';
  }

  /** Let go of the store: another household is opened, or the phone was signed out. */
  leave(): void {
    this.#ledger?.close();
    this.#let_go();
  }

  #let_go(): void {
    for (const stop of this.#stop) stop();
    this.#stop = [];
    this.#kept.forget();
    this.#ledger = undefined;
    this.home = undefined;
    this.status = NOTHING_SENT;
    this.#stock.clear();
    this.lines = NO_LINES;
    this.records = [];
  }

  /** Leave this household on this phone, unsent work too: asked for only where a person was told what goes. */
  async sign_out(): Promise<void> {
    const { ledger } = this;
    this.phase = 'opening';
    this.#let_go();
    await ledger.sign_out(true);
    location.hash = '#/';
    await this.begin();
  }

  /** Words and names of crops change together; the words alone where the names are not to be had just now. */
  async speak(language: typeof tongue.language): Promise<void> {
    const tables = await reference(language).catch(() => undefined);
    tongue.speak(language);
    this.#reference = tables ?? this.#reference;
  }

  #tick(): void {
    this.now = new Date();
    this.#stock.turn_to(this.today);
  }

  async #reread(): Promise<void> {
    const { ledger } = this;
    await Promise.all([this.#read_records(), this.#read_sheets(), this.#read_rest()]);
    const kept = await this.#kept.read(ledger, this.#setting, this.today);
    if (kept) this.#stock.show(kept);
    this.#lines_read = (kept ? when_idle() : Promise.resolve()).then(() => this.#read_all(ledger));
    if (!kept) await this.#lines_read;
  }

  async #read_all(ledger: Ledger): Promise<void> {
    if (this.#ledger !== ledger) return;
    const lines = await ledger.lines();
    if (this.#ledger !== ledger) return;
    this.lines = by_id(lines, (line) => line.written.id);
    this.#fold_all();
  }

  #fold_all(): void {
    this.#folded_on = this.#setting;
    this.#stock.all(this.lines.values(), this.#setting, this.today);
    this.#keep_lots();
  }

  #keep_lots(): void {
    if (!this.#ledger) return;
    this.#kept.soon(this.#ledger, () => ({
      lines: this.lines.size,
      setting: this.#setting,
      today: this.today,
      ids: [...this.#stock.lots.keys()],
      lot_on: (id, day) => this.#stock.without_history(id, day),
    }));
  }

  async #read_records(): Promise<void> {
    this.records = await this.ledger.records();
    const values = this.household?.values ?? {};
    const before = tongue.language;
    tongue.follow(values['language'] === 'de' ? 'de' : 'en');
    if (tongue.language !== before) this.#reference = await reference(tongue.language);
    tongue.keep(manner_of(values));
    const ids = [this.ledger.people(), this.ledger.writer()] as const;
    [this.writer_ids, this.writer_id] = await Promise.all(ids);
  }

  #describe(): void {
    if (!this.#folded_on || !folds_alike(this.#folded_on, this.#setting)) return this.#fold_all();
    this.#stock.describe(lot_records(this.records));
    this.#keep_lots();
  }

  async #read_sheets(): Promise<void> {
    this.sheets = await this.ledger.sheets();
  }

  async #read_rest(): Promise<void> {
    const { ledger } = this;
    [this.status, this.tray, this.conflicts] = await Promise.all([
      ledger.status(),
      ledger.tray.lines(),
      ledger.conflicts.unseen(),
    ]);
  }

  async #heard(change: Change): Promise<void> {
    if (!this.#ledger) return;
    if (change.drafts) this.drafts_changed += 1;
    if (change.photos) this.photos_changed += 1;
    const { lines } = change;
    if (lines.length > MANY) return this.#after_lines(() => this.#catching_up.add(lines));
    await Promise.all([
      change.records && this.#read_records().then(() => this.#after_lines(() => this.#describe())),
      change.sheets && this.#read_sheets(),
      (change.status || change.tray || change.records) && this.#read_rest(),
      lines.length > 0 && this.#after_lines(() => this.#read_lines(lines)),
    ]);
  }

  async #after_lines(act: () => Promise<void> | void): Promise<void> {
    await this.#lines_read;
    if (this.#ledger) await act();
  }

  async #catch_up(ids: readonly Id[]): Promise<void> {
    if (!this.#ledger) return;
    await Promise.all([this.#read_records(), this.#read_sheets(), this.#read_rest()]);
    await this.#read_lines(ids);
  }

  async #read_lines(ids: readonly Id[]): Promise<void> {
    if (!this.#ledger) return;
    const lines = by_id(await this.ledger.lines_by_id(ids), (line) => line.written.id);
    this.lines = changed(
      this.lines,
      ids.map((id) => [id, lines.get(id)] as const),
    );
    // Lines that went away, and many at once, are cheaper and surer folded whole.
    if (lines.size < ids.length || ids.length > MANY) return this.#fold_all();
    this.#stock.add([...lines.values()]);
    this.#keep_lots();
  }

  /** Keep one entry. The form closes only on `ok`. */
  record<K extends Kind>(
    kind: K,
    body: BodyOf<K> | Body,
    more: More = {},
    draft?: DraftStep,
  ): Promise<Outcome<Line>> {
    return this.ledger.record({ ...more, kind, body: body as unknown as Body }, draft);
  }
  /** Keep several in one transaction, all or none. */
  record_all(entries: readonly NewEntry[], draft?: DraftStep): Promise<Outcome<readonly Line[]>> {
    return this.ledger.record_all(entries, draft);
  }
  /** Change fields of a record; a new record has an id from `ledger.mint_id()`. */
  edit(type: string, record: Id, set: NewEdit['set'], photos?: NewEdit['photos']): Promise<Outcome<Line>> {
    return this.ledger.edit({ type, record, set, ...(photos && { photos }) });
  }
  strike(id: Id, why?: string): Promise<Outcome<Line>> {
    return this.ledger.strike(id, why);
  }
  async write_as(person: Id): Promise<void> {
    await this.ledger.set_writer(person);
    this.writer_id = person;
  }
}

export const house = new House();
