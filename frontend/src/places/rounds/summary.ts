/** What a walk did: found, trimmed, freed, to be done, where it went. Read from the entries it wrote. Pure. */
import type { Id, Line } from '../../ledger/index.ts';
import { STEPS, type Step } from '../../storekeeping/rules.ts';
import type { BodyOf } from '../../storekeeping/shapes.ts';
import type { FoldState, LotState, Went } from '../../storekeeping/state.ts';
import { readPickOver } from './chores.ts';
import { minutesSpent, type Walk } from './draft.ts';
import { bodyOf, type Lines } from './entries.ts';
import { toldOf } from './sample.ts';

export interface FindingCount {
  readonly finding: string;
  readonly pieces?: number;
}

export type Deed =
  | { readonly deed: 'air'; readonly reading: BodyOf<'reading'> }
  | {
      readonly deed: 'out' | 'trim' | 'left';
      readonly lot: Id;
      readonly findings: readonly FindingCount[];
      readonly pieces: number;
    }
  | {
      readonly deed: 'held' | 'set_apart';
      readonly lot: Id;
      readonly photographed: boolean;
      readonly pieces: number;
    }
  | { readonly deed: 'decided'; readonly lot: Id; readonly decision: BodyOf<'decision'> }
  | { readonly deed: 'not_looked'; readonly lot: Id; readonly why: string }
  | { readonly deed: 'freed'; readonly lot: Id }
  | { readonly deed: 'pick_over'; readonly lot: Id; readonly day: string; readonly who: Id };

/** What went to one place, all crops together. */
export interface WentTo {
  readonly step: Step;
  readonly animals?: Id;
  readonly grams?: number;
  readonly of: readonly { readonly crop: string; readonly pieces?: number }[];
}

export interface Summary {
  readonly walked: number;
  readonly minutes: number;
  /** Pieces looked at; absent where a lot was gone over by the net, and nobody told how many. */
  readonly looked?: number;
  readonly out: number;
  readonly deeds: readonly Deed[];
  readonly went: readonly WentTo[];
  readonly entries: number;
  readonly photos: number;
}

export interface Walked {
  readonly walk: Walk;
  readonly lines: Lines;
  readonly whole: FoldState | undefined;
  readonly lot: (id: Id) => LotState | undefined;
}

/** Entries of the walk, in the order they were made. */
export const entriesOf = (walk: Walk): readonly Id[] => [
  ...walk.beside,
  ...walk.passed.flatMap(({ entries }) => entries),
];

const total = (numbers: readonly (number | undefined)[]): number =>
  numbers.reduce<number>((sum, n) => sum + (n ?? 0), 0);

const counted = (finding: string, pieces: number | undefined): FindingCount =>
  pieces === undefined ? { finding } : { finding, pieces };

function ofInspection(body: BodyOf<'inspection'>): readonly Deed[] {
  const { lot, out = [], trims = [], seen = [] } = body;
  if (body.way === 'none') return [{ deed: 'not_looked', lot, why: body.why_not ?? 'other' }];
  const told = new Set([...out, ...trims].flatMap(({ findings }) => findings));
  const left = seen.filter(({ finding }) => !told.has(finding));
  const gone = (
    deed: 'out' | 'trim',
    rows: readonly { readonly findings: readonly string[]; readonly pieces?: number }[],
  ): Deed[] =>
    rows.length === 0
      ? []
      : [
          {
            deed,
            lot,
            findings: rows.map(({ findings, pieces }) => counted(findings[0] ?? 'unsure', pieces)),
            pieces: total(rows.map(({ pieces }) => pieces)),
          },
        ];
  return [
    ...gone('out', out),
    ...gone('trim', trims),
    ...(left.length === 0
      ? []
      : [
          {
            deed: 'left' as const,
            lot,
            findings: left.map(({ finding, pieces }) => counted(finding, pieces)),
            pieces: total(left.map(({ pieces }) => pieces)),
          },
        ]),
  ];
}

function ofLine(line: Line, { whole, lines }: Walked): readonly Deed[] {
  const inspection = bodyOf('inspection', line);
  if (inspection) return ofInspection(inspection);
  const reading = bodyOf('reading', line);
  if (reading) return [{ deed: 'air', reading }];
  const suspect = bodyOf('suspect', line);
  if (suspect) {
    const photographed = (line.written.photos ?? []).length > 0;
    return [{ deed: suspect.lies, lot: suspect.lot, photographed, pieces: suspect.pieces ?? 1 }];
  }
  const decision = bodyOf('decision', line);
  const of = decision && bodyOf('suspect', lines.get(decision.suspect) ?? line);
  if (decision && of) return [{ deed: 'decided', lot: of.lot, decision }];
  const claim = bodyOf('claim', line);
  const named = claim && readPickOver(claim.chore);
  const picked = named && bodyOf('inspection', lines.get(named.inspection));
  const who = claim && (whole?.claims[claim.chore]?.person ?? line.written.person);
  return picked && who ? [{ deed: 'pick_over', lot: picked.lot, day: named.day, who }] : [];
}

function wentTo(rows: readonly Went[]): readonly WentTo[] {
  const steps = rows.filter(
    (row): row is Went & { way: Step } => (STEPS as readonly string[]).includes(row.way) && !row.unwritten,
  );
  const places = [...new Set(steps.map((row) => `${row.way}:${row.animals ?? ''}`))];
  const at = (place: string) => steps.filter((row) => `${row.way}:${row.animals ?? ''}` === place);
  return places
    .map((place): WentTo => {
      const here = at(place);
      const first = here[0];
      const weights = here.map((row) => row.grams).filter((grams) => grams !== null);
      const crops = [...new Set(here.map((row) => row.crop ?? ''))];
      const of = crops.map((crop) => {
        const pieces = total(
          here.filter((row) => (row.crop ?? '') === crop).map((row) => row.pieces ?? undefined),
        );
        return pieces > 0 ? { crop, pieces } : { crop };
      });
      return {
        step: first?.way ?? 'compost',
        ...(first?.animals ? { animals: first.animals } : {}),
        ...(weights.length > 0 ? { grams: total(weights) } : {}),
        of,
      };
    })
    .sort((a, b) => STEPS.indexOf(a.step) - STEPS.indexOf(b.step));
}

function lookedAt(seen: readonly BodyOf<'inspection'>[]): Pick<Summary, 'looked'> {
  const numbered = seen.filter(({ looked }) => looked !== undefined);
  const told = numbered.map(({ looked, way, counted: by_hand }) =>
    toldOf(looked, { whole: way === 'all', by_hand }),
  );
  return told.includes(undefined) ? {} : { looked: total(told) };
}

export function summaryOf(walked: Walked): Summary {
  const { walk, lines, whole, lot } = walked;
  const ids = entriesOf(walk);
  const written = ids.map((id) => lines.get(id)).filter((line) => line !== undefined);
  const seen = written.map((line) => bodyOf('inspection', line)).filter((body) => body !== undefined);
  const freed = walk.passed
    .filter((passed) => lot(passed.lot)?.finished)
    .map((passed): Deed => ({ deed: 'freed', lot: passed.lot }));
  const order: readonly Deed['deed'][] = [
    'air',
    'out',
    'set_apart',
    'held',
    'decided',
    'trim',
    'left',
    'not_looked',
    'freed',
    'pick_over',
  ];
  const deeds = [...written.flatMap((line) => ofLine(line, walked)), ...freed];
  const own = new Set(ids);
  return {
    walked: walk.passed.filter(({ told }) => told.what !== 'not_looked').length,
    minutes: minutesSpent(walk),
    ...lookedAt(seen),
    out: total(seen.flatMap(({ out = [] }) => out.map(({ pieces }) => pieces))),
    deeds: deeds.sort((a, b) => order.indexOf(a.deed) - order.indexOf(b.deed)),
    went: wentTo((whole?.went ?? []).filter((row) => own.has(row.entry))),
    entries: written.length,
    photos: total(written.map((line) => line.written.photos?.length)),
  };
}
