/** The invented household of the simulation: four people, two spaces. */
import type { Id, Written } from '../../frontend/src/wire/written.ts';
import type { ModelServer } from './model/server.ts';

const id = (group: string, no: number): Id => `00000000-0000-4000-${group}-${String(no).padStart(12, '0')}`;

export const HOUSEHOLD = id('a000', 1);
export const device_id = (no: number): Id => id('8000', no + 1);

export const PEOPLE = [
  { id: id('b000', 1), name: 'Runa', role: 'keeper' },
  { id: id('b000', 2), name: 'Tibor', role: 'adult' },
  { id: id('b000', 3), name: 'Elke', role: 'rounds' },
  { id: id('b000', 4), name: 'Nilo', role: 'child' },
] as const;

const SPACES = ['Root cellar', 'Loft'];

/** The lines by which the household begins, written by the server itself. */
export function found_household(server: ModelServer, now: number): readonly Written[] {
  server.state.household = HOUSEHOLD;
  const people = PEOPLE.map(({ name, role, ...person }, no) =>
    first_edit(no, 'person', person.id, { name, role }, now),
  );
  const spaces = SPACES.map((name, no) =>
    first_edit(PEOPLE.length + no, 'space', id('9000', no + 1), { name }, now),
  );
  const lines = [...people, ...spaces];
  server.write_down(lines, now);
  return lines;
}

function first_edit(no: number, type: string, record: Id, set: Record<string, string>, now: number): Written {
  return {
    id: id('c000', no + 1),
    household: HOUSEHOLD,
    device: id('d000', 1),
    device_no: no + 1,
    person: PEOPLE[0].id,
    kind: 'edit',
    schema: 1,
    happened_at: new Date(now - 3_600_000).toISOString(),
    dated: 'clock',
    body: { type, record, base_rev: 0, set },
  };
}
