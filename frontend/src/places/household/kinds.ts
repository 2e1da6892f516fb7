/** The kinds of space there are, in the order they are offered, and what may stand at a door. */
export const space_kinds = [
  'root_cellar',
  'cold_room',
  'loft',
  'spare_room',
  'pantry',
  'freezer',
  'garage',
  'clamp',
  'bed',
  'other',
] as const;
export type SpaceKind = (typeof space_kinds)[number];

export const door_cautions = [
  'ladder',
  'weight',
  'gas',
  'no_flame',
  'not_alone',
  'low_beam',
  'slippery',
] as const;
export type DoorCaution = (typeof door_cautions)[number];

/**
 * What stands at the door of such a space from the first: gas of rot or ferment where roots and fruit lie shut in, and so no
 * flame and not alone. Common practice, no source; the household mends it.
 */
export const first_cautions: Readonly<Partial<Record<SpaceKind, readonly DoorCaution[]>>> = {
  root_cellar: ['gas', 'no_flame', 'not_alone'],
  clamp: [],
  loft: ['ladder', 'weight'],
};
