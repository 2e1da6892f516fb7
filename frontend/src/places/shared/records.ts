/**
 * Records as screens read them: spaces, people, animals and so on, from the field values the ledger holds. A field that is
 * missing or of another shape (made by a newer build) reads as absent.
 */
import type { Body, Id, Json, RecordNow } from '../../ledger';

export type Role = 'keeper' | 'adult' | 'rounds' | 'child' | 'minder';

interface Described {
  readonly id: Id;
  /** No longer in use; entries that name it still show it. */
  readonly archived: boolean;
}
export interface Space extends Described {
  readonly name: string;
  /** `root_cellar`, `loft`, ... ; '' where none was chosen. */
  readonly kind: string;
  /** Cautions at its door, as chosen by the household. */
  readonly cautions: readonly string[];
  readonly order: number;
}
export interface Person extends Described {
  readonly name: string;
  readonly role: Role;
  readonly minutes_a_week: number | undefined;
  /** An older child who may decide, and send to animals. */
  readonly may_decide: boolean;
  readonly values: Body;
}
export interface Animals extends Described {
  readonly name: string;
  readonly kind: string;
  readonly number: number | undefined;
  readonly values: Body;
}

const ROLES: readonly string[] = ['keeper', 'adult', 'rounds', 'child', 'minder'];

/** Keepers first. */
export const by_role = (a: { readonly role: Role }, b: { readonly role: Role }): number =>
  ROLES.indexOf(a.role) - ROLES.indexOf(b.role);

export const text = (value: Json | undefined): string => (typeof value === 'string' ? value : '');
export const numeric = (value: Json | undefined): number | undefined =>
  typeof value === 'number' ? value : undefined;
export const texts = (value: Json | undefined): readonly string[] =>
  Array.isArray(value) ? value.filter((one): one is string => typeof one === 'string') : [];

const described = ({ id, values }: RecordNow) => ({ id, archived: values['archived'] === true });

export const space_of = (record: RecordNow): Space => ({
  ...described(record),
  name: text(record.values['name']),
  kind: text(record.values['kind']),
  cautions: texts(record.values['cautions']),
  order: numeric(record.values['order']) ?? 0,
});

export function person_of(record: RecordNow): Person {
  const role = text(record.values['role']);
  return {
    ...described(record),
    name: text(record.values['name']),
    role: ROLES.includes(role) ? (role as Role) : 'child',
    minutes_a_week: numeric(record.values['minutes_a_week']),
    may_decide: record.values['may_decide'] === true,
    values: record.values,
  };
}

export const animals_of = (record: RecordNow): Animals => ({
  ...described(record),
  name: text(record.values['name']),
  kind: text(record.values['kind']),
  number: numeric(record.values['number']),
  values: record.values,
});

export const grown = (role: Role | undefined): boolean => role === 'keeper' || role === 'adult';
