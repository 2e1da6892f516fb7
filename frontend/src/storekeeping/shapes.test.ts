// The bodies the fold reads are the bodies the wire carries: a drift between the two does not compile.
import { expect, it } from 'vitest';
import type { components } from '../wire/schema.d.ts';
import type { BodyOf, Kind } from './shapes.ts';

type Wire = components['schemas'];

/** As read from JSON: nothing in it is for writing. */
type Read<T> = T extends readonly (infer Each)[]
  ? readonly Read<Each>[]
  : T extends object
    ? { readonly [Name in keyof T]: Read<T[Name]> }
    : T;

/** Both ways: what one side may say the other takes. */
interface Same<Fold, OnTheWire> {
  readonly read: (body: OnTheWire) => Fold;
  readonly written: (body: Fold) => OnTheWire;
}

const same = { read: <T>(body: T) => body, written: <T>(body: T) => body };

type Bodies = {
  readonly put_away: Wire['BodyPutAway'];
  readonly take: Wire['BodyTake'];
  readonly cull: Wire['BodyCull'];
  readonly trim: Wire['BodyTrim'];
  readonly move: Wire['BodyMove'];
  readonly count: Wire['BodyCount'];
  readonly set_aside: Wire['BodySetAside'];
  readonly put_by: Wire['BodyPutBy'];
  readonly reading: Wire['BodyReading'];
  readonly round: Wire['BodyRound'];
  readonly inspection: Wire['BodyInspection'];
  readonly suspect: Wire['BodySuspect'];
  readonly decision: Wire['BodyDecision'];
  readonly chore_done: Wire['BodyChoreDone'];
  readonly claim: Wire['BodyClaim'];
  readonly offer: Wire['BodyOffer'];
  readonly scrap: Wire['BodyScrap'];
  readonly lay: Wire['BodyLay'];
  readonly pail: Wire['BodyPail'];
  readonly heap: Wire['BodyHeap'];
  readonly strike: Wire['BodyStrike'];
};

const checked: { readonly [K in Kind]: Same<BodyOf<K>, Read<Bodies[K]>> } = {
  put_away: same,
  take: same,
  cull: same,
  trim: same,
  move: same,
  count: same,
  set_aside: same,
  put_by: same,
  reading: same,
  round: same,
  inspection: same,
  suspect: same,
  decision: same,
  chore_done: same,
  claim: same,
  offer: same,
  scrap: same,
  lay: same,
  pail: same,
  heap: same,
  strike: same,
};

it('reads every kind as the wire writes it', () => {
  const body: BodyOf<'claim'> = { chore: 'hens/2026-10-02' };
  expect(Object.keys(checked)).toHaveLength(21);
  expect(checked.claim.written(checked.claim.read(body))).toBe(body);
});
