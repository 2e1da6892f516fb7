/**
 * Disease that lives on in soil: what a heap took in of it, and which beds get none of that heap. Twin:
 * `homestead/storekeeping/soil.py`. Both run `fixtures/vectors/soil.json`. Rules told in docs/ladder.md, L15.
 */

import type { Row, Rules, SoilRule } from './rules.ts';

/** What went on a heap, of which crop of the tables (null: mixed), and what was seen of it. */
export interface OnHeap {
  readonly crop: string | null;
  readonly findings: readonly string[];
  readonly day: string;
}

/** One disease that a heap took in. */
export interface Taken {
  readonly disease: string;
  /** A finding says so; else it may be that. */
  readonly sure: boolean;
  /** Of what brought it first. */
  readonly crop: string | null;
  readonly day: string;
  readonly kin: readonly string[];
  readonly rows: readonly Row[];
}

type Soil = Pick<Rules, 'soil'>;

/** Each disease once, what is sure before what may be, else as it came first. */
export function taken_in(rules: Soil, loads: readonly OnHeap[]): readonly Taken[] {
  const by_day = [...loads].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  return rules.soil.flatMap((disease) => first(disease, by_day) ?? []);
}

/** What bars this heap from a bed on which that crop is to grow; undefined where nothing does. */
export function kin_of_bed(taken: readonly Taken[], grows: string): Taken | undefined {
  const barred = taken.filter(({ kin }) => kin.includes(grows));
  return barred.find(({ sure }) => sure) ?? barred[0];
}

function first(disease: SoilRule, loads: readonly OnHeap[]): Taken | undefined {
  const { id, kin, rows } = disease;
  const told = (load: OnHeap | undefined, sure: boolean): Taken | undefined =>
    load && { disease: id, sure, crop: load.crop, day: load.day, kin, rows };
  return (
    told(
      loads.find((load) => carries(disease, load, 'findings')),
      true,
    ) ??
    told(
      loads.find((load) => carries(disease, load, 'maybe')),
      false,
    )
  );
}

/** A finding that names the disease holds on whatever it was seen; one that may be it on its carriers. */
function carries(disease: SoilRule, { crop, findings }: OnHeap, words: 'findings' | 'maybe'): boolean {
  const seen = disease[words].some((word) => findings.includes(word));
  return seen && (words === 'findings' || crop === null || disease.carriers.includes(crop));
}
