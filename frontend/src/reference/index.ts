/**
 * The reference tables on the phone. Rules and words are a first load (hashed, precached); what only Kitchen and
 * Scraps show, and the sources of each table, lie in files of their own, loaded when they are asked for.
 */

import {
  load_kitchen,
  load_rows,
  load_rules,
  load_texts,
  text_of,
  texts_of,
  type FirstRows,
  type Texts,
} from './built.ts';
import type { KitchenReference, Language, LookFor, LookingOverHow, PackFit, Reference } from './shapes.ts';
import type { Rules } from '../storekeeping/rules.ts';

export type { Clock, Dish, Keeping, PreserveYield, Use } from './built.ts';
export type {
  Evidence,
  KitchenReference,
  Language,
  LookFor,
  LookingOverHow,
  PackFit,
  Reference,
  Source,
  Urgency,
} from './shapes.ts';
export { with_own, type OwnCrop, type OwnFigure, type OwnTables } from './own.ts';
export { source_of, sources_of } from './sources.ts';

/** Which column of a table's texts is its sentence, and which its caution (order: homestead/reference/words.py). */
const SENTENCE: Readonly<Record<string, number>> = {
  ladder: 0,
  kitchen_safety: 0,
  feed_safety: 0,
  eaters: 0,
  looking_over: 0,
  soil_diseases: 0,
  look_fors: 1,
  findings: 1,
};
const CAUTION: Readonly<Record<string, number>> = {
  ladder: 1,
  kitchen_safety: 0,
  eaters: 0,
  soil_diseases: 1,
};

/** The tables with their words in that language. */
export async function reference(language: Language): Promise<Reference> {
  const [rules, rows, words] = await Promise.all([load_rules(), load_rows(), load_texts('words', language)]);
  return reference_of(rules, rows, words);
}

export function reference_of(rules: Rules, rows: FirstRows, words: Texts): Reference {
  const text = (row: string, column = 0): string => text_of(words, row, column);
  const parts = words['parts'] as Readonly<Record<string, string>>;
  const named = (domain: string) => (id: string) => text(`names:${domain}/${id}`) || id;
  const by_table = (columns: Readonly<Record<string, number>>) => (row: string) => {
    const column = columns[row.slice(0, row.indexOf(':'))];
    return column === undefined ? '' : text(row, column);
  };
  const state_name = named('state');
  return {
    rules,
    version: rows.version,
    figures: rows.figures,
    crops: rows.crops,
    in_hand: rows.in_hand,
    crop_name: (crop) => text(`crops:${crop}`) || text(`in_hand:${crop}`) || crop,
    finding_name: (finding) => text(`findings:${finding}`) || state_name(finding),
    finding_description: (finding) => text(`findings:${finding}`, 1),
    finding_spreads: (finding) => rows.findings[finding]?.[1] ?? false,
    pack_name: named('pack'),
    animal_name: named('animal'),
    eater_name: named('eater'),
    part_name: (part) => parts[part] ?? part,
    cure_of: (crop) => {
      const found = rows.cures[crop];
      return found && { low: found[0], high: found[1], rows: found[2] };
    },
    packs_of: (crop) => packs_of(rows, crop),
    look_fors: (crop) => look_fors_of(rows, text, crop),
    looking_over: (crop) => looking_over_of(rows, text, crop),
    sentence: by_table(SENTENCE),
    sentences: (row) => sentences_of(words, row, SENTENCE),
    caution: by_table(CAUTION),
  };
}

/** Of rows that share a name each its own, where the table has one text a row; else the one sentence they share. */
function sentences_of(
  words: Texts,
  row: string,
  columns: Readonly<Record<string, number>>,
): readonly string[] {
  const table = row.slice(0, row.indexOf(':'));
  const all = table === 'kitchen_safety' ? texts_of(words, row) : [text_of(words, row, columns[table] ?? -1)];
  return all.filter((text) => text !== '');
}

type Text = (row: string, column?: number) => string;

/** A crop's own packs, and those that suit any produce where it has no row; best first. */
function packs_of(rows: FirstRows, crop: string): readonly PackFit[] {
  const order = ['best', 'good', 'fair', 'poor', 'never'];
  const of = (kind: string): readonly PackFit[] =>
    Object.entries(rows.packs[kind] ?? {}).map(([pack, fit]) => ({
      pack,
      fit,
      row: `packs:${kind}/${pack}`,
    }));
  const own = of(crop);
  const known = new Set(own.map(({ pack }) => pack));
  const any = own.some(({ fit }) => fit !== 'never')
    ? []
    : of('any_produce').filter(({ pack }) => !known.has(pack));
  return [...own, ...any].sort((a, b) => order.indexOf(a.fit) - order.indexOf(b.fit));
}

function look_fors_of(rows: FirstRows, text: Text, crop: string): readonly LookFor[] {
  return Object.entries(rows.look_fors[crop] ?? {}).map(([finding, [urgency, neighbours]]) => {
    const row = `look_fors:${crop}/${finding}`;
    const [where, how_to_tell, means, photo] = [text(row), text(row, 1), text(row, 2), text(row, 3)];
    return { finding, row, where, how_to_tell, means, urgency, neighbours, photo };
  });
}

function looking_over_of(rows: FirstRows, text: Text, crop: string): LookingOverHow | null {
  const found = rows.looking_over[crop];
  if (!found) return null;
  const [way, least, share, minutes_per_10kg] = found;
  const row = `looking_over:${crop}`;
  return {
    way,
    ...(least === null ? {} : { sample_pieces_min: least }),
    sample_share_pct: share,
    minutes_per_10kg,
    how: text(row),
    row,
  };
}

/** What Kitchen, Scraps and the household page read beside, in that language. */
export async function kitchen_reference(language: Language): Promise<KitchenReference> {
  const [rows, words] = await Promise.all([load_kitchen(), load_texts('kitchen_words', language)]);
  const column = (index: number) => (row: string) => text_of(words, row, index);
  const [first, second, third, fourth] = [column(0), column(1), column(2), column(3)];
  return {
    dishes: rows.dishes,
    preserve_yields: rows.preserve_yields,
    clocks: rows.clocks,
    keeping: rows.keeping,
    keeps_days: rows.keeps_days,
    jarred: rows.jarred,
    dish_name: (dish) => first(`dishes:${dish}`) || dish,
    pack_how: first,
    pack_caution: second,
    sound_part: first,
    bad_part: second,
    feed_note: first,
    hazard: second,
    numbers: first,
    law: (row) => ({ place: first(row), whom: second(row), rule: third(row), scraps: fourth(row) }),
    animal: (animal, quantity, sort) =>
      rows.animals
        .filter(([a, s, q]) => a === animal && q === quantity && (sort === undefined || s === sort))
        .map(([, s, , condition, low, high, unit]) => ({
          row: `animals:${[animal, quantity, s, condition].map((part) => part.replaceAll('/', '-')).join('/')}`,
          sort: s,
          condition,
          low,
          high,
          unit,
        })),
    scrap_values: rows.scrap_values,
    heap_values: rows.heap_values,
    heap_materials: rows.heap_materials,
    feed_value: (feedstuff) => {
      const found = rows.feed_values[feedstuff];
      return found ? { dry_matter_pct: found[0], protein_pct_dm: found[1] } : null;
    },
  };
}
