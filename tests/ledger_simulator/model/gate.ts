/** Who may push which line, and whether what it names is here: `homestead/ledger/gate.py` in small. */
import { is_object } from '../../../frontend/src/wire/json.ts';
import { read_edit, type Id, type Written } from '../../../frontend/src/wire/written.ts';
import { begun_by, EDITORS, KINDS, misfit, named_by, type Role } from './kinds.ts';
import type { State } from './state.ts';

export class Refused extends Error {
  readonly code: string;
  readonly permanent: boolean;
  readonly facts: Readonly<Record<string, string>>;

  constructor(code: string, permanent: boolean, facts: Readonly<Record<string, string>> = {}) {
    super(code);
    this.code = code;
    this.permanent = permanent;
    this.facts = facts;
  }
}

export class Gate {
  /** Ids whose line this push did not take, with whether for ever. */
  readonly refused = new Map<Id, boolean>();
  readonly #state: State;
  readonly #people: readonly Id[];

  constructor(state: State, people: readonly Id[]) {
    this.#state = state;
    this.#people = people;
  }

  /** Throws `Refused`. */
  check(written: Written, recovered: boolean): void {
    if (written.kind === 'edit') this.#check_edit(written, recovered);
    else this.#check_entry(written, recovered);
  }

  /** What is wrong with a line in itself is known before anything is looked up. */
  static check_shape(written: Written): void {
    if (written.kind === 'edit') return Gate.#check_edit_shape(written);
    if ((written.strikes === undefined) === (written.kind === 'strike')) throw new Refused('shape', true);
    if (KINDS[written.kind] === undefined) throw new Refused('unknown_kind', true);
    const wrong = misfit(written.kind, written.body);
    if (wrong) throw new Refused(wrong.code, true, { where: wrong.where });
  }

  static #check_edit_shape(written: Written): void {
    const edit = read_edit(written);
    if (edit === undefined) throw new Refused('shape', true);
    if (EDITORS[edit.type] === undefined) throw new Refused('unknown_type', true, { type: edit.type });
  }

  #check_entry(written: Written, recovered: boolean): void {
    const role = this.#writer(written, recovered);
    if (!KINDS[written.kind]?.roles.includes(role)) throw new Refused('role', true, { role });
    if (role === 'rounds' && written.kind === 'decision') throw new Refused('needs_switch', true);
    if (written.strikes !== undefined) this.#check_strike(written, written.strikes, role);
    for (const [thing, id, where] of named_by(written)) this.#check_known(thing, id, where);
  }

  #check_edit(written: Written, recovered: boolean): void {
    const edit = read_edit(written);
    if (edit === undefined) throw new Refused('shape', true);
    const role = this.#writer(written, recovered);
    if (!EDITORS[edit.type]?.includes(role)) throw new Refused('role', true, { role });
    const known = this.#state.record(edit.type, edit.record);
    if (known === undefined && edit.type === 'lot') this.#unknown('lot', edit.record, 'body.record');
  }

  /** The role of the line's person, who must be listed on the phone. After a reset any phone brings back what it holds. */
  #writer(written: Written, recovered: boolean): Role {
    const may_recover = recovered && this.#state.epoch > 1;
    if (!this.#people.includes(written.person) && !may_recover) throw new Refused('person_not_here', false);
    const person = this.#state.record('person', written.person);
    if (person === undefined) this.#unknown('person', written.person, 'person');
    const values = person?.values;
    return is_object(values) && typeof values['role'] === 'string' ? as_role(values['role']) : 'child';
  }

  #check_strike(written: Written, struck: Id, role: Role): void {
    const known = this.#state.lines.get(struck)?.written;
    if (known?.kind === 'edit') throw new Refused('strike_of_edit', true);
    if (role !== 'keeper' && role !== 'adult') {
      if (known === undefined) this.#unknown('entry', struck, 'strikes');
      else if (known.person !== written.person) throw new Refused('role', true, { role });
    }
    for (let at: Id | undefined = struck; at !== undefined; at = this.#state.lines.get(at)?.written.strikes) {
      if (at === written.id) throw new Refused('strike_ring', true);
    }
  }

  #check_known(thing: string, id: Id, where: string): void {
    if (!this.#state.things.has(`${thing}/${id}`)) this.#unknown(thing, id, where);
  }

  #unknown(thing: string, id: Id, where: string): never {
    const permanent = this.refused.get(id);
    const code = permanent === undefined ? 'unknown_reference' : 'parent_refused';
    throw new Refused(code, permanent ?? false, { thing, id, where });
  }
}

export const thing_of = (written: Written): string | undefined => {
  const begun = begun_by(written);
  return begun && `${begun}/${written.id}`;
};

function as_role(text: string): Role {
  return text === 'keeper' || text === 'adult' || text === 'rounds' || text === 'minder' ? text : 'child';
}
