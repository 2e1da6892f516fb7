/** Kinds of dish: those of the tables, which are for four, and the household's own, scaled to those at table. Pure. */
import type { Body, Id, Json, RecordNow } from '../../ledger/index.ts';
import type { Dish } from '../../reference/index.ts';
import { numeric, text } from '../shared/records.ts';
import { fields, rows } from '../shared/sheet_fields.ts';
import type { DishKind, DishStep, DishUse } from './dishes.ts';

/** The tables' dishes are for so many. */
const FOR = 4;
/** The type of record a dish of one's own is. */
export const OWN_DISH = 'dish';

const STEPS: readonly DishStep[] = ['raw', 'cook', 'pot'];

/** What keeps longer than this is put by, by the rule of putting by: it is no dish. The project's own figure. */
const LONGEST_DAYS = 30;

export const is_dish = ({ keeps_days }: Dish): boolean => keeps_days <= LONGEST_DAYS;

export const of_table = (dish: Dish, at_table: number): DishKind => ({
  id: dish.id,
  own: false,
  step: dish.step,
  uses: dish.uses.map(({ crop, part, states, kg }) => ({
    crop,
    part,
    states,
    grams: Math.round((kg * 1000 * at_table) / FOR),
  })),
});

const use_of = (value: Readonly<Record<string, Json>>, scale: number): DishUse => ({
  crop: text(value['crop']),
  part: text(value['part']) || null,
  states: null,
  grams: Math.round((numeric(value['grams']) ?? 0) * scale),
});

/** The household's own dishes in use. One of another shape, made by a newer build, has no uses and rescues nothing. */
export const own_dishes = (records: readonly RecordNow[], at_table: number): readonly DishKind[] =>
  records
    .filter(({ type, values }) => type === OWN_DISH && values['archived'] !== true)
    .map(({ id, values }) => own_dish(id, values, at_table));

export function own_dish(id: Id, values: Body, at_table: number): DishKind {
  const step = STEPS.find((one) => one === values['step']) ?? 'cook';
  const scale = at_table / Math.max(1, numeric(values['people']) ?? FOR);
  const uses = rows(fields(values)?.['uses']).map((value) => use_of(value, scale));
  return { id, own: true, step, uses: uses.filter(({ crop, grams }) => crop !== '' && grams > 0) };
}
