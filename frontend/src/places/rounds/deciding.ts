/** What may be decided about a suspect, and the entry it becomes. Pure. */
import type { Body, Id } from '../../ledger/index.ts';
import type { RungRow } from '../../look/ladder.ts';
import type { Do, DecisionBody, OutBody } from '../../storekeeping/shapes.ts';
import type { SuspectState } from '../../storekeeping/state.ts';
import type { Offer } from '../shared/offer.ts';

/** `animals:<group>` names whom it goes to. */
export type Choice = Do | `animals:${string}`;

export interface Signs {
  /** `kind` in the table of findings. */
  readonly kind: (finding: string) => string | undefined;
  readonly spreads: (finding: string) => boolean;
  /** Of this crop: how soon it is to be acted on. */
  readonly urgency: (finding: string) => string | undefined;
}

/** Keep, or use first: never with rot, mould, what spreads or what presses. */
export const notKept = (findings: readonly string[], signs: Signs): readonly string[] =>
  findings.filter(
    (finding) => signs.kind(finding) === 'rot' || signs.spreads(finding) || signs.urgency(finding) === 'now',
  );

/** Its rung says trim and cook: nothing with a sign on it is cooked as it is. */
const choiceOf = (row: string): Choice => (row === 'cook' ? 'trim' : (row as Choice));

export interface Choices {
  readonly keepable: boolean;
  /** Findings that keep it from being kept. */
  readonly against: readonly string[];
  readonly rungs: readonly (RungRow & { readonly key: string })[];
  /** Chosen to begin with; absent where only a person who looks can say. */
  readonly first?: Choice;
}

export function choicesFor(
  suspect: Pick<SuspectState, 'findings'>,
  offered: Offer,
  signs: Signs,
  trim_word: string,
): Choices {
  const against = notKept(suspect.findings, signs);
  const keepable = against.length === 0;
  const told = suspect.findings.some((finding) => finding !== 'unsure');
  const rungs = offered.rows.map((row) => ({
    ...row,
    key: choiceOf(row.key ?? row.step),
    ...(row.step === 'cook' ? { word: trim_word } : {}),
  }));
  const best =
    keepable && told ? 'use_first' : offered.best === undefined ? undefined : choiceOf(offered.best);
  return { keepable, against, rungs, ...(best === undefined ? {} : { first: best }) };
}

/** Where what was decided goes when it is done (fold F19). */
export const stepOfChoice = (
  choice: Choice,
): { readonly step: OutBody['went'][number]['step']; readonly animals?: Id } => {
  const [what, animals] = choice.split(':');
  if (what === 'animals') return animals ? { step: 'animals', animals } : { step: 'animals' };
  if (what === 'raw' || what === 'pot' || what === 'compost' || what === 'bin') return { step: what };
  return { step: 'cook' };
};

/** What leaves when it is done on the spot. */
export const outOf = (
  suspect: Pick<SuspectState, 'findings' | 'pieces' | 'grams'>,
  choice: Choice,
): OutBody => ({
  pieces: suspect.pieces ?? 1,
  ...(suspect.grams === null ? {} : { grams: suspect.grams }),
  findings: [...suspect.findings],
  went: [stepOfChoice(choice)],
});

export interface Doing {
  readonly choice: Choice;
  readonly doer?: Id;
  readonly by?: string;
  /** Done on the spot. */
  readonly now: boolean;
}

export function decisionBody(
  suspect: Pick<SuspectState, 'id' | 'findings' | 'pieces' | 'grams'>,
  { choice, doer, by, now }: Doing,
): DecisionBody {
  const [what, animals] = choice.split(':');
  const base = { suspect: suspect.id, do: what as Do, ...(animals === undefined ? {} : { animals }) };
  if (what === 'keep') return base;
  if (now) return { ...base, out: outOf(suspect, choice) };
  return { ...base, ...(doer === undefined ? {} : { doer }), ...(by === undefined ? {} : { by }) };
}

/** A chore done where the piece went another way than was decided. */
export const elsewhereBody = (
  chore: string,
  suspect: Pick<SuspectState, 'findings' | 'pieces' | 'grams'>,
  choice: Choice,
): Body => ({ chore, out: outOf(suspect, choice) as unknown as Body });
