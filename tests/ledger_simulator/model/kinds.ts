/** The kinds the simulated phones write, as far as the ledger asks: who may, what they name, what they begin. */
import type { JsonObject } from '../../../frontend/src/wire/json.ts';
import type { Id, Written } from '../../../frontend/src/wire/written.ts';

export type Role = 'keeper' | 'adult' | 'rounds' | 'child' | 'minder';

const WALKERS: readonly Role[] = ['keeper', 'adult', 'rounds'];
const WALKERS_AND_MINDER: readonly Role[] = [...WALKERS, 'minder'];
const EVERYONE: readonly Role[] = [...WALKERS_AND_MINDER, 'child'];

interface Kind {
  readonly roles: readonly Role[];
  /** Fields of the body, each with the thing it names, or '' for none. */
  readonly fields: Readonly<Record<string, string>>;
  readonly begins?: 'lot' | 'suspect' | 'decision';
}

const AMOUNT = { pieces: '', grams: '', measured: '' };

export const KINDS: Readonly<Record<string, Kind>> = {
  put_away: {
    roles: WALKERS,
    begins: 'lot',
    fields: { ...AMOUNT, crop: '', variety: '', space: 'space', pack: '', code: '', spot: '' },
  },
  take: { roles: WALKERS, fields: { ...AMOUNT, lot: 'lot', for: '' } },
  count: { roles: WALKERS, fields: { ...AMOUNT, lot: 'lot', gone: '' } },
  move: {
    roles: WALKERS,
    begins: 'lot',
    fields: { ...AMOUNT, lot: 'lot', all: '', space: 'space', code: '' },
  },
  inspection: {
    roles: WALKERS_AND_MINDER,
    fields: { lot: 'lot', space: 'space', way: '', looked: '', counted: '', seen: '', out: '', trims: '' },
  },
  reading: { roles: WALKERS_AND_MINDER, fields: { space: 'space', temp_c: '', rh_pct: '' } },
  suspect: { roles: EVERYONE, begins: 'suspect', fields: { lot: 'lot', findings: '', lies: '', pieces: '' } },
  decision: { roles: WALKERS, begins: 'decision', fields: { suspect: 'suspect', do: '' } },
  strike: { roles: EVERYONE, fields: { why: '' } },
};

/** Roles that may edit records of a type. */
export const EDITORS: Readonly<Record<string, readonly Role[]>> = {
  space: ['keeper', 'adult'],
  lot: WALKERS,
  person: ['keeper'],
};

export const begun_by = ({ kind, body }: Written): 'lot' | 'suspect' | 'decision' | undefined =>
  kind === 'move' && body['all'] === true ? undefined : KINDS[kind]?.begins;

/** What the body names: `[thing, id, where]`, in the order of the kind's fields. */
export function named_by(written: Written): readonly (readonly [string, Id, string])[] {
  const fields = KINDS[written.kind]?.fields ?? {};
  return Object.entries(fields).flatMap(([field, thing]) => {
    const id = written.body[field];
    return thing !== '' && typeof id === 'string' ? [[thing, id, `body.${field}`] as const] : [];
  });
}

/** Shape, as far as the simulated phones get it wrong: an unknown field, or a weight below nought. */
export function misfit(kind: string, body: JsonObject): { code: string; where: string } | undefined {
  const grams = body['grams'];
  if (typeof grams === 'number' && grams < 0) return { code: 'grams', where: 'body.grams' };
  const unknown = Object.keys(body).find((field) => !(field in (KINDS[kind]?.fields ?? {})));
  return unknown === undefined ? undefined : { code: 'shape', where: `body.${unknown}` };
}
