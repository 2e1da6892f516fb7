/** The ladder as a form: what is offered for a piece, what is not and why, what is chosen to begin with. Pure. */
import type { Id } from '../../ledger/index.ts';
import type { RungRow } from '../../look/ladder.ts';
import type { Reference } from '../../reference/index.ts';
import type { Amount, SeedKept } from '../../storekeeping/state.ts';
import { may_feed } from '../../storekeeping/feeding.ts';
import { uses_of } from '../../storekeeping/ladder.ts';
import {
  STEPS,
  type Allowed,
  type FeedAnswer,
  type FeedCode,
  type Law,
  type Question,
  type Row,
  type Step,
  type WithheldCode,
} from '../../storekeeping/rules.ts';

/** A row of the ladder as a form keeps it: a step, or a step and the group it goes to. */
export const rowOf = (step: string, group?: Id): string => (group === undefined ? step : `${step}:${group}`);

/** Nothing is there but what is kept for seed (docs/fold.md, F13). */
export function all_for_seed({ seed, shown }: { readonly seed: SeedKept; readonly shown: Amount }): boolean {
  const all = (kept: number | null, there: number | null): boolean =>
    kept !== null && kept > 0 && there !== null && kept >= there;
  return all(seed.pieces, shown.pieces) || all(seed.grams, shown.grams);
}

/** A group of animals as it may be offered something. */
export interface Eaters {
  readonly id: Id;
  readonly name: string;
  readonly kind: string;
  readonly withheld?: boolean;
}

/** What whoever is writing may choose: children and minders do not say what is good to eat or to feed. */
export interface May {
  readonly food: boolean;
  readonly feed: boolean;
}

/** The words an offer needs, in the language spoken. */
export interface OfferWords {
  readonly withheld: Readonly<Record<WithheldCode, (findings: string) => string>>;
  readonly feed: Readonly<Record<FeedCode, (animal: string) => string>>;
  readonly for_seed: string;
  readonly not_yours: string;
  readonly not_for: (who: string, why: string) => string;
  readonly eaters: Readonly<Record<string, string>>;
  readonly names: (findings: readonly string[]) => string;
  readonly list: (words: readonly string[]) => string;
}

export interface Asked {
  readonly question: Question;
  readonly groups: readonly Eaters[];
  readonly law: Law | null;
  readonly may: May;
  /** All of it is kept for seed: neither food nor feed. */
  readonly for_seed?: boolean;
}

export type Tables = Pick<Reference, 'rules' | 'sentence' | 'caution'>;

export interface Offer {
  /** False: the tables do not know this; whoever is unsure asks. */
  readonly known: boolean;
  readonly rows: readonly RungRow[];
  /** Best of what is offered; absent where the tables do not know. */
  readonly best?: string;
  /** Rows of the tables behind each row of the form, by its key: "Why", "source". */
  readonly sources: Readonly<Record<string, readonly Row[]>>;
}

const begun = (part: string): string => part.charAt(0).toLocaleUpperCase() + part.slice(1);

/** Sentences one after the other, each told once, begun large and closed by a full stop. */
const sentences = (parts: readonly string[]): string =>
  [...new Set(parts.map((part) => part.trim()).filter((part) => part !== ''))]
    .map((part) => (/[.!?)]$/.test(part) ? begun(part) : `${begun(part)}.`))
    .join(' ');

export const FOOD: readonly Step[] = ['raw', 'cook', 'pot'];
const isFood = (step: Step): boolean => FOOD.includes(step);
/** What is said of a piece that nothing was found on, or nobody is sure of. */
const NO_FINDING: readonly string[] = ['sound', 'unsure'];

const isLadder = (row: Row): boolean => row.startsWith('ladder:');

/** Rows about what was found before rows about the crop's age. */
function bearing(rows: readonly Row[], findings: readonly string[]): readonly Row[] {
  const about = rows.filter((row) => findings.includes(row.slice(row.lastIndexOf('/') + 1)));
  return about.length > 0 ? about : rows;
}

/** Who at table must not have it, with the sentence of the rule: one sentence a rule. */
function not_for_whom({ not_for }: Allowed, tables: Tables, words: OfferWords): readonly string[] {
  const rules = [...new Set(not_for.map(({ row }) => row))];
  return rules.map((rule) => {
    const whom = not_for.filter(({ row }) => row === rule).map(({ eater }) => words.eaters[eater] ?? eater);
    return words.not_for(words.list(whom), tables.caution(rule));
  });
}

/** The rows that say who must not have it, each with the kitchen's rule it was drawn from. */
function rules_of_table({ not_for }: Allowed, { rules }: Tables): readonly Row[] {
  const named = rules.eaters.filter(({ row }) => not_for.some((one) => one.row === row));
  return [
    ...new Set(named.flatMap(({ row, topic }) => (topic ? [row, `kitchen_safety:${topic}` as Row] : [row]))),
  ];
}

/**
 * How it is done stands at the best step; every step that feeds people has its cautions where it is chosen. Lower down
 * a compost or bin row needs no words of the kitchen.
 */
function how(allowed: Allowed, best: boolean, asked: Asked, tables: Tables, words: OfferWords): string {
  const { findings } = asked.question;
  const not_for = not_for_whom(allowed, tables, words);
  const food = isFood(allowed.step);
  const ladder = bearing(allowed.cautions.filter(isLadder), findings).map(tables.caution);
  const kitchen = allowed.cautions.filter((row) => !isLadder(row)).map(tables.caution);
  return sentences([
    ...(best ? bearing(allowed.rows, findings).map(tables.sentence) : []),
    ...(best || food ? ladder : []),
    ...(food ? kitchen : []),
    ...not_for,
  ]);
}

interface Told {
  readonly row: RungRow;
  readonly rows: readonly Row[];
}

const soft = (text: string): { readonly soft?: string } => (text === '' ? {} : { soft: text });

function toAnimals(asked: Asked, tables: Tables, words: OfferWords): readonly Told[] {
  const answers = asked.groups.map((group) => ({
    group,
    answer: may_feed(tables.rules, asked.question, group, asked.law),
  }));
  const row = ({ group, answer }: { group: Eaters; answer: FeedAnswer }): Told => {
    const key = rowOf('animals', group.id);
    const reason = asked.may.feed ? (answer.code ? words.feed[answer.code]('') : '') : words.not_yours;
    return answer.offered && asked.may.feed
      ? {
          row: {
            step: 'animals',
            key,
            word: group.name,
            offered: true,
            ...soft(sentences(answer.limits.map(tables.sentence))),
          },
          rows: answer.rows,
        }
      : { row: { step: 'animals', key, word: group.name, offered: false, reason }, rows: answer.rows };
  };
  const told = answers.map(row);
  const first = told[0];
  if (first === undefined)
    return [{ row: { step: 'animals', offered: false, reason: words.withheld.no_animal('') }, rows: [] }];
  const codes = new Set(answers.map(({ answer }) => answer.code));
  const none = told.every(({ row: { offered } }) => !offered);
  if (!none || (codes.size > 1 && asked.may.feed)) return told;
  const reason =
    asked.may.feed && answers[0]?.answer.code ? words.feed[answers[0].answer.code]('') : words.not_yours;
  return [
    {
      row: { step: 'animals', offered: false, reason },
      rows: [...new Set(told.flatMap(({ rows }) => rows))],
    },
  ];
}

export function offer(asked: Asked, tables: Tables, words: OfferWords): Offer {
  const uses = uses_of(tables.rules, asked.question, asked.groups, asked.law);
  const findings = words.names(asked.question.findings.filter((finding) => !NO_FINDING.includes(finding)));
  const rung = (step: Step): readonly Told[] => {
    if (asked.for_seed && (step === 'animals' || isFood(step)))
      return [{ row: { step, offered: false, reason: words.for_seed }, rows: [] }];
    if (step === 'animals') return toAnimals(asked, tables, words);
    const allowed = uses.steps.find((use) => use.step === step);
    if (allowed && isFood(step) && !asked.may.food)
      return [{ row: { step, offered: false, reason: words.not_yours }, rows: [] }];
    if (allowed)
      return [
        {
          row: {
            step,
            offered: true,
            ...soft(how(allowed, step === uses.steps[0]?.step, asked, tables, words)),
          },
          rows: [...allowed.rows, ...allowed.cautions, ...rules_of_table(allowed, tables)],
        },
      ];
    // The bin is always there: nobody is made to keep a heap.
    if (step === 'bin') return [{ row: { step, offered: true }, rows: [] }];
    const withheld = uses.withheld.find((use) => use.step === step);
    const code = withheld?.code ?? 'table';
    // "Never raw" is said of raw alone; of the pot that mixed peelings begin below, that it is not for this.
    const below = code === 'begins_below' && step !== 'raw';
    const reason = below ? words.withheld.table('') : words.withheld[code](findings);
    return [{ row: { step, offered: false, reason }, rows: withheld?.rows ?? [] }];
  };
  const told = STEPS.flatMap(rung);
  const best = uses.known ? told.find(({ row }) => row.offered)?.row : undefined;
  return {
    known: uses.known,
    rows: told.map(({ row }) => row),
    ...(best === undefined ? {} : { best: best.key ?? best.step }),
    sources: Object.fromEntries(told.map(({ row, rows }) => [row.key ?? row.step, rows])),
  };
}

/** The lowest of several rows: a piece with two findings goes the stricter way. */
export function stricter(rows: readonly string[]): string | undefined {
  const rank = (row: string): number => STEPS.indexOf((row.split(':')[0] ?? row) as Step);
  return [...rows].sort((a, b) => rank(b) - rank(a))[0];
}
