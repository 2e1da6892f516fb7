/** Who may be sent through a door, by what stands at it and what each is not asked for. As the roster does. Pure. */
import { texts, type Person } from '../shared/records.ts';

/** What a door asks of whoever goes through it. */
const NEEDS_OF_DOOR: Readonly<Record<string, string>> = {
  gas: 'not_alone',
  not_alone: 'not_alone',
  ladder: 'ladder',
  weight: 'lifting',
};

/** What a person of a role is never asked for, and what this one is not asked for. */
export const may_go = ({ role, values }: Person, needs: ReadonlySet<string>): boolean =>
  (role !== 'rounds' || !needs.has('not_alone')) && !texts(values['cannot']).some((need) => needs.has(need));

export const needs_of_door = (cautions: readonly string[]): readonly string[] =>
  cautions.flatMap((caution) => NEEDS_OF_DOOR[caution] ?? []);

/** Those who can reach it; where nobody can, everybody, since somebody must say. */
export function who_can_reach(people: readonly Person[], cautions: readonly string[]): readonly Person[] {
  const needs = new Set(needs_of_door(cautions));
  const able = people.filter((person) => may_go(person, needs));
  return able.length > 0 ? able : people;
}
