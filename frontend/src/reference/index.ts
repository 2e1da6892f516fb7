/**
 * The reference tables on the phone. `rules` and the words are part of the first load (hashed, precached); sources
 * lie in files of their own, loaded when a figure is tapped.
 */

import type { Row, Rules } from '../storekeeping/rules.ts';
import type { CropFigures } from '../storekeeping/state.ts';

export type Language = 'en' | 'de';

/** How well a figure is founded: read in the page named, computed from such, custom of the trade, recalled. */
export type Evidence = 'seen' | 'derived' | 'common practice' | 'memory';

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
  readonly urgency: 'now' | 'days' | 'weeks' | 'note';
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

/** The tables in one language, as screens read them. */
export interface Reference {
  readonly rules: Rules;
  readonly version: string;
  /** What the fold asks of each crop (F5, F14), from the tables; a household's own figures are put over them. */
  readonly figures: Readonly<Record<string, CropFigures>>;
  crop_name(crop: string): string;
  finding_name(finding: string): string;
  finding_description(finding: string): string;
  /** It passes from piece to piece: a sample that shows it asks for the lot to be picked over. */
  finding_spreads(finding: string): boolean;
  pack_name(pack: string): string;
  animal_name(animal: string): string;
  part_name(part: string): string;
  /** All crops that may be stored, in the table's order. */
  readonly crops: readonly string[];
  readonly packs_of: (crop: string) => readonly { pack: string; fit: string; row: Row }[];
  look_fors(crop: string): readonly LookFor[];
  looking_over(crop: string): LookingOverHow | null;
  /** The one sentence of a row: how (ladder), rule (kitchen_safety), limit (feed_safety), rule (feeding_law). */
  sentence(row: Row): string;
  /** The caution of a row, '' where it has none. */
  caution(row: Row): string;
}

/** The tables with their words in that language; loads that language's file once. */
export declare function reference(language: Language): Promise<Reference>;

/** Where a row is from. Loads its table's sources on the first tap. */
export declare function source_of(row: Row): Promise<Source | null>;
