/** What screens read of the tables. */

import type { Row, Rules } from '../storekeeping/rules.ts';
import type { ScrapValues } from '../storekeeping/diet.ts';
import type { HeapValues } from '../storekeeping/heap.ts';
import type { CropFigures } from '../storekeeping/state.ts';
import type { Clock, Dish, Keeping, PreserveYield } from './built.ts';

export type Language = 'en' | 'de';

/** How well a figure is founded: read in the page named, computed from such, custom of the trade, recalled. */
export type Evidence = 'seen' | 'derived' | 'common practice' | 'memory';
export type Urgency = 'now' | 'days' | 'weeks' | 'note';

export interface Source {
  readonly row: Row;
  readonly source: string;
  readonly where: string;
  readonly evidence: Evidence;
  readonly notes: string;
}

export interface LookFor {
  readonly finding: string;
  readonly row: Row;
  readonly where: string;
  readonly how_to_tell: string;
  readonly means: string;
  readonly urgency: Urgency;
  readonly neighbours: 'yes' | 'no' | 'maybe';
  readonly photo: string;
}

export interface LookingOverHow {
  readonly way: 'all' | 'sample';
  readonly sample_pieces_min?: number;
  readonly sample_share_pct?: number;
  readonly minutes_per_10kg: number;
  readonly how: string;
  readonly row: Row;
}

export interface PackFit {
  readonly pack: string;
  /** best, good, fair, poor, never. */
  readonly fit: string;
  readonly row: Row;
}

/** How many days a crop cures: fewest and most that the tables have, and the rows that say so. */
export interface Cure {
  readonly low: number;
  readonly high: number;
  readonly rows: readonly Row[];
}

/** The tables in one language, as screens read them. Each function may be passed on by itself. */
export interface Reference {
  readonly rules: Rules;
  readonly version: string;
  /** What the fold asks of each crop (F5, F14), from the tables; a household's own figures are put over them. */
  readonly figures: Readonly<Record<string, CropFigures>>;
  /** All crops that may be stored, in the table's order. */
  readonly crops: readonly string[];
  /** What else comes to hand in a kitchen: rhubarb, bread, meat. */
  readonly in_hand: readonly string[];
  readonly crop_name: (crop: string) => string;
  readonly finding_name: (finding: string) => string;
  readonly finding_description: (finding: string) => string;
  /** It passes from piece to piece: a sample that shows it asks for the lot to be picked over. */
  readonly finding_spreads: (finding: string) => boolean;
  readonly pack_name: (pack: string) => string;
  readonly animal_name: (animal: string) => string;
  readonly part_name: (part: string) => string;
  readonly eater_name: (eater: string) => string;
  /** Undefined where the tables know of no curing in days. */
  readonly cure_of: (crop: string) => Cure | undefined;
  readonly packs_of: (crop: string) => readonly PackFit[];
  readonly look_fors: (crop: string) => readonly LookFor[];
  readonly looking_over: (crop: string) => LookingOverHow | null;
  /** The one sentence of a row: how (ladder), rule (kitchen_safety), limit (feed_safety), sign (look_fors). */
  readonly sentence: (row: Row) => string;
  /** The sentences of all rows that share the name, in the order of their sources: what joins, joins strictly. */
  readonly sentences: (row: Row) => readonly string[];
  /** The caution of a row, '' where it has none. */
  readonly caution: (row: Row) => string;
}

/** What Kitchen, Scraps and the household page read beside: loaded by them. */
export interface KitchenReference {
  readonly dishes: readonly Dish[];
  readonly preserve_yields: readonly PreserveYield[];
  /** How long nuts, eggs and what was put by keep, by crop and how they lie. */
  readonly clocks: Readonly<Record<string, Readonly<Record<string, Clock>>>>;
  /** How a crop wants to lie where there is room for it. */
  readonly keeping: Readonly<Record<string, Keeping>>;
  /** Days something keeps, by topic of kitchen_safety. */
  readonly keeps_days: Readonly<Record<string, number>>;
  /** Crops that are not low in acid when jarred; any other needs a tested recipe under pressure. */
  readonly jarred: Readonly<Record<string, 'acid' | 'acidified'>>;
  readonly dish_name: (dish: string) => string;
  /** How to pack, and its cautions: `packs:carrot/sand`. */
  readonly pack_how: (row: Row) => string;
  readonly pack_caution: (row: Row) => string;
  /** What the sound and the bad part are: `look_fors:carrot/gnawed`. */
  readonly sound_part: (row: Row) => string;
  readonly bad_part: (row: Row) => string;
  /** What harms, and the note of a row of feed_safety that is no limit. */
  readonly hazard: (row: Row) => string;
  readonly feed_note: (row: Row) => string;
  /** Figures that go with a kitchen rule. */
  readonly numbers: (row: Row) => string;
  /** Place, whom it binds, the rule and what it says of kitchen scraps: `feeding_law:...`. */
  readonly law: (row: Row) => {
    readonly place: string;
    readonly whom: string;
    readonly rule: string;
    readonly scraps: string;
  };
  /** Low and high of a quantity in its unit, null where the tables have none. */
  readonly animal: (
    animal: string,
    quantity: string,
    sort?: string,
  ) => readonly {
    readonly row: Row;
    readonly sort: string;
    readonly condition: string;
    readonly low: number | null;
    readonly high: number | null;
    readonly unit: string;
  }[];
  readonly scrap_values: ScrapValues;
  readonly heap_values: HeapValues;
  readonly heap_materials: readonly string[];
  /** Dry matter in %, crude protein in % of dry matter, as the source gives them. */
  readonly feed_value: (
    feedstuff: string,
  ) => { readonly dry_matter_pct: string; readonly protein_pct_dm: string } | null;
}
