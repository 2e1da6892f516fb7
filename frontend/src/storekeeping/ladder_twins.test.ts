// Both languages answer 10,000 random questions alike: twin of tests/storekeeping/test_ladder_twins.py, whose file of
// hashes it compares with. The numbers come from the minimal standard generator of Park and Miller.
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import canonicalize from 'canonicalize';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { part_in, rows_for } from './conditions.ts';
import { check_went } from './feeding.ts';
import { parts_of, rung_of, uses_of } from './ladder.ts';
import type { CutIn, Group, Law, Question, Rules } from './rules.ts';

const read = <T>(path: string): T => JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8')) as T;
const rules = read<Rules>('../reference/built/rules.json');
const kept = read<{ seed: number; count: number; batch: number; hashes: string[] }>(
  '../../../fixtures/vectors/ladder_twins.json',
);

const LAWS: readonly (Law | null)[] = [
  null,
  { country: 'AT', confirmed: true, kitchen_to: ['laying_hen', 'pig'] },
  { country: 'NZ', confirmed: true, kitchen_to: ['laying_hen', 'duck', 'pig', 'goat', 'rabbit'] },
  { country: 'NZ', confirmed: false, kitchen_to: ['laying_hen'] },
  { country: 'AU', confirmed: true, kitchen_to: ['laying_hen', 'pig'] },
  { country: 'AU-QLD', confirmed: true, kitchen_to: ['laying_hen', 'goat'] },
  { country: 'CA', confirmed: true, kitchen_to: ['laying_hen', 'pig', 'rabbit'] },
  { country: 'CH', confirmed: true, kitchen_to: ['laying_hen'] },
];
const CUT_IN: readonly (CutIn | null)[] = ['store', 'yard', 'kitchen', null];
const EATERS = ['infant', 'small_child', 'pregnant', 'old', 'ill', 'no_nuts'];
const AGES: readonly (number | null)[] = [null, 10, 100, 400];
const ODD_PARTS = ['core', 'peel', 'leaves', 'bad part', 'sound part'];

interface Asked {
  readonly question: Question;
  readonly groups: readonly Group[];
  readonly law: Law | null;
  readonly whole: boolean;
}

class Dice {
  constructor(private state: number) {}
  roll(sides: number): number {
    this.state = (this.state * 48271) % 2147483647;
    return this.state % sides;
  }
  pick<T>(of: readonly T[]): T {
    return of[this.roll(of.length)] as T;
  }
}

function* combinations(seed: number, count: number): Generator<Asked> {
  const dice = new Dice(seed);
  const crops = [...Object.keys(rules.crops), 'own_crop'];
  const findings = Object.keys(rules.findings);
  const kinds = [...rules.animals, 'goose'];
  for (let number = 0; number < count; number += 1) yield combination(dice, crops, findings, kinds);
}

function combination(
  dice: Dice,
  crops: readonly string[],
  findings: readonly string[],
  kinds: readonly string[],
): Asked {
  const crop = dice.pick(crops);
  const found = findings_for(dice, crop, findings);
  const part = part_for(dice, crop, found);
  const groups: Group[] = Array.from({ length: 1 + dice.roll(3) }, () => ({ kind: dice.pick(kinds) }));
  if (dice.roll(20) === 0) groups[0] = { kind: groups[0]?.kind ?? '', withheld: true };
  const question = {
    crop,
    part,
    findings: found,
    age_days: dice.pick(AGES),
    cut_in: dice.pick(CUT_IN),
    eaters: EATERS.filter(() => dice.roll(4) === 0),
  };
  const whole = dice.roll(2) === 0;
  return { question, groups, law: dice.pick(LAWS), whole };
}

function findings_for(dice: Dice, crop: string, findings: readonly string[]): readonly string[] {
  const of_crop = Object.keys(rules.ladder[crop] ?? {});
  const own = of_crop.length > 0 ? of_crop : findings;
  const count = 1 + Math.floor(dice.roll(8) / 6);
  const found = Array.from({ length: count }, () => (dice.roll(4) ? dice.pick(own) : dice.pick(findings)));
  return dice.roll(50) === 0 ? [] : found;
}

function part_for(dice: Dice, crop: string, found: readonly string[]): string | null {
  const choice = dice.roll(6);
  if (choice === 0) return 'not_known';
  if (choice === 1) return dice.pick(ODD_PARTS);
  const parts = Object.keys(rows_for(rules, crop, found[0] ?? 'sound')).map(part_in);
  return choice < 5 && parts.length > 0 ? dice.pick(parts) : null;
}

function answer({ question, groups, law, whole }: Asked): unknown {
  const went = {
    step: 'animals' as const,
    ...(question.part ? { part: question.part } : {}),
    ...(question.cut_in ? { cut_in: question.cut_in } : {}),
  };
  const leaving = { crop: question.crop, findings: question.findings, whole };
  const by_id = Object.fromEntries(groups.map((group, number) => [String(number), group]));
  const standing = question.findings.map((finding, index) => ({ finding, share: (index + 1) / 8 }));
  return {
    uses: uses_of(rules, question, groups, law),
    refusal: check_went(rules, went, leaving, by_id, law),
    parts: parts_of(rules, question.crop, question.findings),
    rung: rung_of(rules, question.crop, standing),
  };
}

it('answers 10,000 questions as the server does', () => {
  const answers = [...combinations(kept.seed, kept.count)].map(answer);
  const batches = kept.hashes.map((_, index) => answers.slice(index * kept.batch, (index + 1) * kept.batch));
  const hashes = batches.map((batch) => bytesToHex(sha256(utf8ToBytes(canonicalize(batch) ?? ''))));
  expect(answers).toHaveLength(kept.count);
  expect(hashes).toEqual(kept.hashes);
});
