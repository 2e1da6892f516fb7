/** Bodies of entries as they are written (docs/fold.md, section 2), one union told apart by `kind`. */

export type Step = 'raw' | 'cook' | 'pot' | 'animals' | 'compost' | 'bin';
export type Do = 'keep' | 'use_first' | 'trim' | Step;
export type Day = string;

/** A: pieces, grams or both. */
export interface AmountBody {
  readonly pieces?: number;
  readonly grams?: number;
  readonly measured?: 'weighed' | 'guessed' | 'vessel';
}

/** W: where something went. */
export interface WentBody {
  readonly step: Step;
  readonly grams?: number;
  readonly part?: string;
  readonly cut_in?: 'store' | 'yard' | 'kitchen';
  readonly animals?: string;
  readonly accident?: boolean;
}

/** O: pieces that left, why and where to. */
export interface OutBody extends AmountBody {
  readonly findings: readonly string[];
  readonly went: readonly WentBody[];
}

/** W with its weight: where nothing else tells how much. */
export interface WeighedWentBody extends WentBody {
  readonly grams: number;
}

/** What was cut off on the way to the kitchen, weighed. */
export interface TrimmedBody extends WeighedWentBody {
  readonly findings?: readonly string[];
}

export interface CutBody {
  readonly pieces?: number;
  readonly findings: readonly string[];
  readonly cut: WentBody;
}

export interface PutAwayBody extends AmountBody {
  readonly crop: string;
  readonly variety?: string;
  readonly space: string;
  readonly pack?: string;
  readonly cures_until?: Day;
  readonly spot?: string;
  readonly code?: string;
}

export interface TakeBody extends AmountBody {
  readonly lot: string;
  readonly for: 'eat' | 'give' | 'seed';
  readonly turning?: boolean;
  readonly tossed?: number;
  readonly trimmed?: TrimmedBody;
  readonly last?: boolean;
}

export interface CullBody extends OutBody {
  readonly lot: string;
  readonly last?: boolean;
}

export interface TrimBody extends CutBody {
  readonly lot: string;
}

export interface MoveBody extends AmountBody {
  readonly lot: string;
  readonly all: boolean;
  readonly space: string;
  readonly pack?: string;
  readonly spot?: string;
  readonly code?: string;
}

export interface CountBody extends AmountBody {
  readonly lot: string;
  readonly gone?: 'eaten' | 'given' | 'lost' | 'dried' | 'unknown';
}

export interface SetAsideBody extends AmountBody {
  readonly lot: string;
  readonly treated?: boolean;
}

export interface PutByFrom extends AmountBody {
  readonly lot: string;
  /** On these pieces; `sound` where nothing was seen. */
  readonly findings?: readonly string[];
}

export interface PutByBody {
  readonly from: readonly PutByFrom[];
  readonly method: 'freeze' | 'dry' | 'ferment' | 'jar';
  readonly crop: 'frozen' | 'dried' | 'ferment' | 'jar';
  readonly label: string;
  readonly space: string;
  readonly pack: string;
  readonly pieces: number;
  readonly grams?: number;
  readonly trimmed?: TrimmedBody;
  readonly keeps_until?: Day;
  readonly code?: string;
}

export interface ReadingBody {
  readonly space: string;
  readonly round?: string;
  readonly temp_c?: number;
  readonly rh_pct?: number;
  readonly low_c?: number;
  readonly high_c?: number;
  readonly since?: Day;
}

export interface RoundBody {
  readonly space: string;
  readonly began_at: string;
  readonly ended_at: string;
}

export interface SeenBody {
  readonly finding: string;
  readonly pieces?: number;
}

export interface InspectionBody {
  readonly lot: string;
  readonly round?: string;
  readonly space: string;
  readonly way: 'all' | 'sample' | 'none';
  readonly why_not?: 'out_of_reach' | 'no_time' | 'other';
  readonly looked?: number;
  readonly counted: boolean;
  readonly seen?: readonly SeenBody[];
  readonly out?: readonly OutBody[];
  readonly trims?: readonly CutBody[];
}

export interface SuspectBody {
  readonly lot: string;
  readonly round?: string;
  readonly findings: readonly string[];
  readonly lies: 'held' | 'set_apart';
  readonly pieces?: number;
  readonly grams?: number;
  readonly ring?: { readonly x: number; readonly y: number; readonly r: number };
}

export interface DecisionBody {
  readonly suspect: string;
  readonly do: Do;
  readonly animals?: string;
  readonly doer?: string;
  readonly by?: Day;
  readonly look_on?: Day;
  readonly out?: OutBody;
}

export interface ChoreDoneBody {
  readonly chore: string;
  readonly minutes?: number;
  readonly found?: string;
  readonly out?: OutBody;
}

export interface ClaimBody {
  readonly chore: string;
}

export interface ScrapBody {
  readonly crop?: string;
  readonly lot?: string;
  readonly findings: readonly string[];
  readonly went: readonly WeighedWentBody[];
  readonly measured?: 'weighed' | 'guessed' | 'vessel';
}

export interface LayBody {
  readonly animals: string;
  readonly day: Day;
  readonly eggs: number;
  readonly broken?: number;
  readonly hens?: number;
}

export interface PailBody {
  readonly animals: string;
  readonly mixed: boolean;
}

export interface HeapBody {
  readonly heap: string;
  readonly did: 'added' | 'turned' | 'warmth' | 'spread';
  readonly material?: string;
  readonly grams?: number;
  readonly measured?: 'weighed' | 'guessed' | 'vessel';
  readonly temp_c?: number;
  readonly bed?: string;
  /** Crop that is to grow on the bed. */
  readonly grows?: string;
  /** Spread on kin of a disease it took in: it tells what happened. */
  readonly accident?: boolean;
}

export interface StrikeBody {
  readonly why?: string;
}

/** Every kind with its body. */
export type Entry =
  | { readonly kind: 'put_away'; readonly body: PutAwayBody }
  | { readonly kind: 'take'; readonly body: TakeBody }
  | { readonly kind: 'cull'; readonly body: CullBody }
  | { readonly kind: 'trim'; readonly body: TrimBody }
  | { readonly kind: 'move'; readonly body: MoveBody }
  | { readonly kind: 'count'; readonly body: CountBody }
  | { readonly kind: 'set_aside'; readonly body: SetAsideBody }
  | { readonly kind: 'put_by'; readonly body: PutByBody }
  | { readonly kind: 'reading'; readonly body: ReadingBody }
  | { readonly kind: 'round'; readonly body: RoundBody }
  | { readonly kind: 'inspection'; readonly body: InspectionBody }
  | { readonly kind: 'suspect'; readonly body: SuspectBody }
  | { readonly kind: 'decision'; readonly body: DecisionBody }
  | { readonly kind: 'chore_done'; readonly body: ChoreDoneBody }
  | { readonly kind: 'claim'; readonly body: ClaimBody }
  | { readonly kind: 'offer'; readonly body: ClaimBody }
  | { readonly kind: 'scrap'; readonly body: ScrapBody }
  | { readonly kind: 'lay'; readonly body: LayBody }
  | { readonly kind: 'pail'; readonly body: PailBody }
  | { readonly kind: 'heap'; readonly body: HeapBody }
  | { readonly kind: 'strike'; readonly body: StrikeBody };

export type Kind = Entry['kind'];
/** The body of one kind: `BodyOf<'take'>`. */
export type BodyOf<K extends Kind> = Extract<Entry, { readonly kind: K }>['body'];
