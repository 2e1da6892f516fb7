/** What may be done with a thing in hand: what is asked about it, and the answer's first words. Pure. */
import { is_spoilt } from '../../storekeeping/conditions.ts';
import { STEPS, type Rules, type Step } from '../../storekeeping/rules.ts';
import type { Offer } from '../shared/offer.ts';

/** States a hand can tell of a thing beside what was found on it; age is known of a lot, and `spent` is the pot's. */
const STATES = ['cooked', 'salted', 'old'];

/**
 * Words to choose from: `sound`, what the crop's own rows tell apart (what its look-fors name first), the plain words for
 * rot and mould, and `unsure` last. `age_known`: a lot tells its age itself.
 */
export function words_to_choose(
  rules: Rules,
  crop: string,
  look_fors: readonly string[],
  age_known: boolean,
): readonly string[] {
  const own = Object.keys(rules.ladder[crop] ?? {});
  const is_state = (finding: string): boolean => rules.findings[finding]?.kind === 'state';
  const told = own.filter((finding) => !is_state(finding));
  const first = look_fors.filter((finding) => rules.findings[finding]);
  const states = STATES.filter((state) => own.includes(state) && !(age_known && state === 'old'));
  return [...new Set(['sound', ...first, ...told, ...states, 'mould', 'rot', 'unsure'])];
}

/** Every other finding there is, for a thing that has what its crop seldom has. */
export const other_words = (rules: Rules, chosen_from: readonly string[]): readonly string[] =>
  Object.entries(rules.findings)
    .filter(([finding, { kind }]) => kind !== 'state' && !chosen_from.includes(finding))
    .map(([finding]) => finding);

/** `sound` and `unsure` stand alone; anything else puts them out. */
export function chosen_with(chosen: readonly string[], finding: string, on: boolean): readonly string[] {
  if (!on) return chosen.filter((one) => one !== finding);
  if (finding === 'sound' || finding === 'unsure') return [finding];
  return [...chosen.filter((one) => one !== 'sound' && one !== 'unsure'), finding];
}

/** Parts a hand can hold by themselves: what the rows call the sound or the bad part is described there instead. */
export function parts_in_hand(rules: Rules, crop: string, findings: readonly string[]): readonly string[] {
  const stored = rules.crops[crop]?.stored_part;
  const states = ['sound', ...findings];
  const parts = states.flatMap((state) => Object.keys(rules.ladder[crop]?.[state] ?? {}));
  return [...new Set(parts)].filter(
    (part) => part !== stored && part !== 'sound part' && part !== 'bad part',
  );
}

export interface Headline {
  /** `not_known`, or the best step. */
  readonly best: Step | 'not_known';
  /** Something of it is cut off for rot or mould. */
  readonly trimmed: boolean;
  /** It was good raw once and is no longer. */
  readonly not_raw: boolean;
}

/** The best use in a word, and what is gone. */
export function headline(rules: Rules, crop: string, findings: readonly string[], offered: Offer): Headline {
  if (!offered.known || offered.best === undefined)
    return { best: 'not_known', trimmed: false, not_raw: false };
  const best = STEPS.find((step) => step === offered.best?.split(':')[0]) ?? 'bin';
  const from_raw = (rules.crops[crop]?.starts_at ?? 'raw') === 'raw';
  return {
    best,
    trimmed: best === 'cook' && findings.some((finding) => is_spoilt(rules, finding)),
    not_raw: from_raw && (best === 'cook' || best === 'pot'),
  };
}

/** Rot or mould was seen: what is soft, slimy or covered goes out whole, whatever the crop. */
export const asks_mould_note = (rules: Rules, findings: readonly string[]): boolean =>
  findings.some((finding) => is_spoilt(rules, finding));

/** Seeds that sprouted: raw they are no food for those who bear less, whatever else is known of them. */
export const asks_sprouts_note = (rules: Rules, crop: string, findings: readonly string[]): boolean =>
  findings.includes('sprouting') &&
  rules.eaters.some(({ topic, crops }) => topic === 'raw_sprouts_frail' && crops.includes(crop));
