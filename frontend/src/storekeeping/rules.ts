/**
 * Shapes of the rules of the trade: what `ladder`, `feeding` and `due` read, ask and answer.
 *
 * `Rules` is `frontend/src/reference/built/rules.json`, the same document the server judges by. The twin of this
 * file is `homestead/storekeeping/rules.py`.
 *
 * A row of a table is named by a row string, `table:key/key/key` with the row's key columns, for example
 * `ladder:potato/tuber/greening`, `kitchen_safety:mould_nuts`. Answers carry such names, never texts: a screen looks
 * the sentence and its source up by them.
 */

export type Step = 'raw' | 'cook' | 'pot' | 'animals' | 'compost' | 'bin';
export const STEPS: readonly Step[] = ['raw', 'cook', 'pot', 'animals', 'compost', 'bin'];
export type CutIn = 'store' | 'yard' | 'kitchen';
export type Eater = 'infant' | 'small_child' | 'pregnant' | 'old' | 'ill' | 'no_nuts';
export type Verdict = 'good' | 'limited' | 'avoid' | 'never' | 'not_known';
/** The name of a row of a table. */
export type Row = string;

export interface LadderRow {
  readonly steps: readonly Step[];
  readonly offered?: readonly string[];
  readonly limited?: readonly string[];
  readonly avoid?: readonly string[];
  readonly never?: readonly string[];
  /** Rows of feed_safety it was drawn from, without their animal: `potato/tuber, peel/green`. */
  readonly feed?: readonly string[];
  readonly topic?: string;
  /** It has a caution of its own, to be shown where the action is. */
  readonly caution?: true;
}

export interface FeedRule {
  readonly crop: string;
  readonly part: string;
  readonly parts: readonly string[];
  readonly condition: string;
  /** Verdict by kind of animal. */
  readonly verdicts: Readonly<Record<string, Verdict>>;
}

export interface LawRule {
  readonly row: Row;
  readonly countries: readonly string[];
  readonly animals: readonly string[];
  readonly kitchen: 'prohibited' | 'no_animal_matter' | 'ask' | 'none';
}

export interface EaterRule {
  readonly row: Row;
  /** The kitchen's rule it was drawn from; '' where the household said it. */
  readonly topic: string;
  readonly eater: Eater;
  /** Empty: any crop. */
  readonly crops: readonly string[];
  /** Empty: any part. */
  readonly parts: readonly string[];
  /** Empty: any condition. */
  readonly conditions: readonly string[];
  readonly steps: readonly Step[];
}

/** A disease that lives on in soil. */
export interface SoilRule {
  readonly id: string;
  readonly rows: readonly Row[];
  /** Findings that say it is there, and those that say it may be, on its carriers. */
  readonly findings: readonly string[];
  readonly maybe: readonly string[];
  readonly carriers: readonly string[];
  /** Crops whose beds get no compost that took it in. */
  readonly kin: readonly string[];
}

export interface CropRule {
  /** Its rows in the feeding tables; absent: it has none and goes to no animal. */
  readonly feeds_as?: string;
  readonly stored_part: string;
  readonly starts_at: Step;
  readonly kind: string;
  readonly old_after_days?: number;
}

export interface FindingRule {
  readonly kind: string;
  readonly broader?: string;
  /** Its word in the feeding tables. */
  readonly feeds_as: string;
}

export interface LookingOver {
  readonly every_days: number;
  readonly every_days_late: number;
  /** 1 to 12, north; south: six months on. */
  readonly late_from_month: number;
}

export interface Rules {
  readonly crops: Readonly<Record<string, CropRule>>;
  readonly findings: Readonly<Record<string, FindingRule>>;
  readonly animals: readonly string[];
  readonly ladder: Readonly<Record<string, Readonly<Record<string, Readonly<Record<string, LadderRow>>>>>>;
  readonly feed: Readonly<Record<string, readonly FeedRule[]>>;
  readonly law: readonly LawRule[];
  readonly eaters: readonly EaterRule[];
  readonly soil: readonly SoilRule[];
  readonly looking_over: Readonly<Record<string, LookingOver>>;
}

/** What the household has set about feeding. Empty: nothing set, the strict start. */
export interface Law {
  /** ISO 3166-1 alpha-2 or 3166-2: `AT`, `AU-QLD`. */
  readonly country?: string | null;
  /** The keeper has read what is commonly restricted there. */
  readonly confirmed?: boolean;
  /** Kinds of animal that the keeper says may have what was cut in a kitchen. */
  readonly kitchen_to?: readonly string[];
  /** Birds are kept in: nothing goes outside to them. */
  readonly housing_order?: boolean;
}

/** `withheld`: ill or under treatment, gets no scraps. `housed`: kept in and fed under cover. */
export interface Group {
  readonly kind: string;
  readonly withheld?: boolean;
  readonly housed?: boolean;
}

/**
 * What someone has in hand. `part` absent: the whole piece as stored; `not_known`: cut off, nobody says which part,
 * the most cautious row wins. `findings`: finding ids and states (`sound old trimmed cooked spent salted treated
 * unsure`); none at all counts as `unsure`. `cut_in` absent: not known.
 */
export interface Question {
  readonly crop: string;
  readonly part?: string | null;
  readonly findings: readonly string[];
  readonly age_days?: number | null;
  readonly cut_in?: CutIn | null;
  readonly eaters?: readonly string[];
}

export interface NotFor {
  readonly eater: string;
  readonly row: Row;
}

/** One use that is left: rows that say how, rows whose caution is shown there, and who must not have it. */
export interface Allowed {
  readonly step: Step;
  readonly rows: readonly Row[];
  readonly cautions: readonly Row[];
  readonly not_for: readonly NotFor[];
}

export type WithheldCode = 'begins_below' | 'table' | 'unsure' | 'not_known' | 'no_animal';

/** A use that is not offered, with the reason. */
export interface Withheld {
  readonly step: Step;
  readonly code: WithheldCode;
  readonly rows: readonly Row[];
}

export type FeedCode =
  | 'findings_needed'
  | 'unsure'
  | 'rot_or_mould'
  | 'withheld'
  | 'housing_order'
  | 'salted'
  | 'spent'
  | 'treated'
  | 'never'
  | 'avoid'
  | 'not_known'
  | 'country_not_set'
  | 'law_not_confirmed'
  | 'law_not_known'
  | 'law_prohibited'
  | 'law_not_allowed'
  | 'animal_matter';

/**
 * May this kind of animal have it? Offered only for good and limited. `refused`: the server refuses it at push;
 * what is to be avoided is not offered, and not refused. `limits` are the rows whose limit counts.
 */
export interface FeedAnswer {
  readonly kind: string;
  readonly verdict: Verdict;
  readonly offered: boolean;
  readonly refused: boolean;
  readonly code?: FeedCode;
  readonly rows: readonly Row[];
  readonly limits: readonly Row[];
}

/** The answer on one screen. `known` false: say "not known" and to ask, whatever steps are left. */
export interface Uses {
  readonly known: boolean;
  readonly steps: readonly Allowed[];
  readonly withheld: readonly Withheld[];
  readonly animals: readonly FeedAnswer[];
}

/** Why a line that sends something to animals is refused. */
export interface Refusal {
  readonly code: FeedCode;
  readonly kind: string;
  readonly crop: string;
  readonly rows: readonly Row[];
}

/** A finding that stands on a lot; `share` of the looked it was seen on, absent: not numbered. */
export interface Standing {
  readonly finding: string;
  readonly share?: number | null;
}

/** `rung` shows on the lot's mark; `turning` is the lowest among its findings (Kitchen). */
export interface Rung {
  readonly rung: Step;
  readonly turning: Step;
}

/** W of fold section 2. */
export interface Went {
  readonly step: Step;
  readonly grams?: number;
  readonly part?: string;
  readonly cut_in?: CutIn;
  readonly animals?: string;
  readonly accident?: boolean;
}
