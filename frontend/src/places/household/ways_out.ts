/**
 * The ways out of a refused entry. The server took nothing, so the entry may be written anew under its own id, sent once
 * more, or let go; nothing leaves by itself.
 */
import type { Body, Json, TrayLine } from '../../ledger';
import { figures } from '../../words';

export type Way = 'compost' | 'sound' | 'eaten' | 'amount' | 'again' | 'never';

/** Refusals that rest on what was seen: seen otherwise, they fall away. */
const SEEN: readonly string[] = ['never', 'unsure', 'rot_or_mould', 'avoid'];
const AMOUNTS: readonly string[] = ['pieces', 'grams', 'amount_missing', 'tossed_more_than_taken'];
/** Kinds with one list of findings for the whole entry. */
const ONE_FINDING: readonly string[] = ['scrap', 'cull', 'trim'];

const is_body = (value: Json | undefined): value is Body =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Every object of a body, the body too, given anew by `turn`; what it leaves alone stays as it was. */
function rewritten(value: Json, turn: (part: Body) => Body): Json {
  if (Array.isArray(value)) return value.map((one: Json) => rewritten(one, turn));
  if (!is_body(value)) return value;
  return turn(
    Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, rewritten(inner, turn)])),
  );
}

const whole = (body: Body, turn: (part: Body) => Body): Body => {
  const turned = rewritten(body, turn);
  return is_body(turned) ? turned : body;
};

const without = (part: Body, names: readonly string[]): Body =>
  Object.fromEntries(Object.entries(part).filter(([name]) => !names.includes(name)));

const fed = (part: Body): boolean => part['step'] === 'animals';

/** All that went to animals went to compost. */
export const to_compost = (body: Body): Body =>
  whole(body, (part) => {
    if (fed(part)) return { ...without(part, ['animals', 'accident']), step: 'compost' };
    return part['do'] === 'animals' ? { ...without(part, ['animals']), do: 'compost' } : part;
  });

/** It was seen as sound. */
export const as_sound = (body: Body): Body => ({ ...body, findings: ['sound'] });

/** What the animals had, in grams, where it was weighed. */
export function fed_grams(body: Body): number | undefined {
  let grams: number | undefined;
  whole(body, (part) => {
    if (fed(part) && typeof part['grams'] === 'number') grams = (grams ?? 0) + part['grams'];
    return part;
  });
  return grams;
}

/** The group it went to. */
export function fed_group(body: Body): string | undefined {
  let group: string | undefined;
  whole(body, (part) => {
    if (fed(part) && typeof part['animals'] === 'string') group = part['animals'];
    return part;
  });
  return group;
}

/** It was eaten all the same. Of what was weighed they ate `grams`; the rest was taken out and went to compost. */
export function as_accident(body: Body, grams: number | undefined): Body {
  const weighed = fed_grams(body);
  const marked = whole(body, (part) =>
    fed(part)
      ? { ...part, accident: true, ...(weighed !== undefined && grams !== undefined ? { grams } : {}) }
      : part,
  );
  if (weighed === undefined || grams === undefined || grams >= weighed) return marked;
  return whole(marked, (part) =>
    Array.isArray(part['went'])
      ? { ...part, went: [...part['went'], { step: 'compost', grams: weighed - grams }] }
      : part,
  );
}

/** With another amount, in the measure it had. */
export const with_amount = (body: Body, shown: number): Body =>
  typeof body['grams'] === 'number'
    ? { ...without(body, ['pieces']), grams: figures().grams(shown) }
    : { ...body, pieces: shown };

/** Which ways lead out, the likeliest first. */
export function ways_of(row: TrayLine): readonly Way[] {
  const { body, kind } = row.written;
  const { code, facts } = row.refusal;
  const reason = typeof facts['reason'] === 'string' ? facts['reason'] : code;
  if (code === 'erased') return ['never'];
  if (code === 'never') {
    const seen = SEEN.includes(reason) && ONE_FINDING.includes(kind);
    return ['compost', ...(seen ? (['sound'] as const) : []), 'eaten', 'never'];
  }
  if (AMOUNTS.includes(code) && (body['grams'] !== undefined || body['pieces'] !== undefined))
    return ['amount', 'never'];
  return ['again', 'never'];
}
