// Every rule of the kitchen's and the feeding tables comes to a screen: the ladder or the feed rules answer with it when its
// case is asked, or a module that the app loads names it. What nothing shows fails here by its id.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { may_feed } from '../storekeeping/feeding.ts';
import { uses_of } from '../storekeeping/ladder.ts';
import type { FeedRule, Rules } from '../storekeeping/rules.ts';
import type { FirstRows, TableSources, Texts } from './built.ts';
import { reference_of } from './index.ts';

const SRC = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const read = <T>(path: string): T => JSON.parse(readFileSync(resolve(SRC, path), 'utf8')) as T;
const rules = read<Rules>('reference/built/rules.json');
const rows = read<FirstRows>('reference/built/rows.json');
const sources = read<TableSources>('reference/built/sources/kitchen_safety.json');
const topics = Object.keys(sources.rows);
const LANGUAGES = ['en', 'de'] as const;

/** Words are sentences, not screens; what the wire and the tables generate names nothing by itself. */
const NO_SCREENS = /\/src\/(words|wire|reference)\//;
const without_comments = (code: string): string =>
  code
    .replace(/<!--[\s\S]*?-->/g, '')
    .replace(/(^|\s)\/\*[\s\S]*?\*\//g, '')
    .replace(/(^|\s)\/\/.*$/gm, '');

function found_at(from: string, named: string): string | undefined {
  const path = resolve(dirname(from), named);
  return [path, `${path}.ts`, `${path}.svelte`, `${path}/index.ts`].find(
    (one) => /\.(ts|svelte)$/.test(one) && existsSync(one),
  );
}

/** What a module loads: by name, or each place's list of pages at once. */
function loads(path: string, code: string): readonly string[] {
  const by_name = [...code.matchAll(/(?:from|import)\s*\(?\s*['"](\.[^'"]+)['"]/g)];
  const lists = code.includes("glob<{ readonly routes: PlacePages }>('./places/*/routes.ts'")
    ? readdirSync(resolve(SRC, 'places')).map((place) => `./places/${place}/routes.ts`)
    : [];
  return [...by_name.map(([, named]) => named ?? ''), ...lists].flatMap(
    (named) => found_at(path, named) ?? [],
  );
}

/** All that is loaded from where the app starts, at once or when a page is opened. */
function loaded(): ReadonlyMap<string, string> {
  const modules = new Map<string, string>();
  const waiting = [resolve(SRC, 'main.ts')];
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (modules.has(path)) continue;
    const code = without_comments(readFileSync(path, 'utf8'));
    modules.set(path, code);
    waiting.push(...loads(path, code));
  }
  return modules;
}

const screens = [...loaded()].filter(([path]) => !NO_SCREENS.test(path));
const named = new Set(
  screens.flatMap(([, code]) =>
    [...code.matchAll(/['"`](?:kitchen_safety:)?([a-z_]+)['"`]/g)].map(([, topic]) => topic),
  ),
);

/** Topics that the ladder answers with: each row asked as it stands, with everyone at table. */
function answered(): ReadonlySet<string> {
  const told = new Set<string>();
  for (const [crop, states] of Object.entries(rules.ladder))
    for (const [finding, parts] of Object.entries(states))
      for (const part of Object.keys(parts)) {
        const { steps } = uses_of(rules, { crop, part, findings: [finding], cut_in: 'store' });
        for (const { cautions } of steps)
          for (const row of cautions) if (row.startsWith('kitchen_safety:')) told.add(row.slice(15));
      }
  for (const { eater, topic, row, crops, parts, conditions } of rules.eaters) {
    const { steps } = uses_of(rules, {
      crop: crops[0] ?? 'carrot',
      part: parts[0] ?? null,
      findings: conditions.slice(0, 1).length ? conditions.slice(0, 1) : ['sound'],
      eaters: [eater],
    });
    if (topic && steps.some(({ not_for }) => not_for.some((one) => one.row === row))) told.add(topic);
  }
  return told;
}

describe('the rules of the kitchen', () => {
  const by_ladder = answered();

  it('reads enough of the app to tell: every place, and what is opened on demand', () => {
    for (const place of ['rounds', 'store', 'kitchen', 'scraps', 'season', 'household'])
      expect(screens.filter(([path]) => path.includes(`/places/${place}/`)).length).toBeGreaterThan(5);
    expect(named.has('a_rule_nobody_shows')).toBe(false);
  });

  it.each(topics)('%s is shown', (topic) => {
    expect(by_ladder.has(topic) || named.has(topic)).toBe(true);
  });

  it.each(LANGUAGES)('says each of its rows in %s, also where several share a name', (language) => {
    const tables = reference_of(rules, rows, read<Texts>(`reference/built/words.${language}.json`));
    for (const [topic, all] of Object.entries(sources.rows)) {
      const row = `kitchen_safety:${topic}`;
      expect(tables.sentences(row), row).toHaveLength(all.length);
      expect(tables.sentence(row), row).toBe(tables.sentences(row)[0]);
    }
  });
});

describe('the feeding rules', () => {
  /** Crops, and findings, that the feeding tables call by that name. */
  const crops_of = (fed: string): readonly string[] =>
    Object.entries(rules.crops).flatMap(([crop, { feeds_as }]) => (feeds_as === fed ? [crop] : []));
  const findings_of = (condition: string): readonly string[] =>
    condition === 'any'
      ? ['sound']
      : Object.entries(rules.findings).flatMap(([id, { feeds_as }]) => (feeds_as === condition ? [id] : []));

  /** Findings whose rows on the ladder were drawn from that feed rule. */
  const drawn_by = (crop: string, rule: string): readonly string[] =>
    Object.entries(rules.ladder[crop] ?? {}).flatMap(([finding, parts]) =>
      Object.values(parts).some(({ feed }) => feed?.includes(rule)) ? [finding] : [],
    );
  /** The strictest holds: a row that a stricter one outdoes has no say of its own. */
  const ORDER = ['never', 'avoid', 'limited', 'good'];
  /** Where a keeper may say that kitchen scraps go to all of them. */
  const LAW = { country: 'NZ', confirmed: true, kitchen_to: rules.animals };

  function is_answered({ crop, part, parts, condition, verdicts }: FeedRule, kind: string): boolean {
    const row = `feed_safety:${kind}/${crop}/${part}/${condition}`;
    return crops_of(crop).some((one) =>
      [...findings_of(condition), ...drawn_by(one, `${crop}/${part}/${condition}`)].some((finding) =>
        [null, ...parts].some((piece) => {
          const question = { crop: one, part: piece, findings: [finding], cut_in: 'yard' as const };
          const { rows: because, limits, verdict } = may_feed(rules, question, { kind }, LAW);
          const stricter = ORDER.indexOf(verdict) < ORDER.indexOf(verdicts[kind] ?? 'never');
          return because.includes(row) || limits.includes(row) || stricter;
        }),
      ),
    );
  }
  const all = Object.values(rules.feed).flat();

  it.each(all)('$crop, $part, $condition: answered with, to each animal it speaks of', (rule) => {
    const silent = Object.keys(rule.verdicts).filter((kind) => !is_answered(rule, kind));
    expect(silent).toEqual([]);
  });
});
