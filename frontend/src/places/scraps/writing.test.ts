// The form asks the tables what the server asks at push, and writes what the server takes.
import { expect, test } from 'vitest';
import { check_went, may_feed } from '../../storekeeping/feeding';
import { reference } from '../../reference';
import {
  accident_body,
  body_of,
  findings_of,
  parts_of,
  question_of,
  soil_diseases,
  STATES,
  type Form,
  type What,
} from './writing';

const FORM: Form = {
  what: 'one',
  crop: 'carrot',
  part: 'tops',
  cut_in: 'yard',
  state: 'sound',
  measured: 'weighed',
};
const same = (crop: string): string => crop;

test('off plates it is cooked, out of the pot it is spent', () => {
  expect(findings_of({ ...FORM, what: 'plates' })).toEqual(['cooked']);
  expect(findings_of({ ...FORM, what: 'plates', state: 'salted' })).toEqual(['cooked', 'salted']);
  expect(findings_of({ ...FORM, what: 'pot' })).toEqual(['spent']);
});

test('a disease that lives on in soil is named where somebody knew it, and only of what is bad', () => {
  const bad: Form = { ...FORM, crop: 'swede', state: 'rotten' };
  expect(findings_of({ ...bad, disease: '' })).toEqual(['rot']);
  expect(findings_of({ ...bad, disease: 'club_root' })).toEqual(['club_root']);
  expect(findings_of({ ...bad, state: 'sound', disease: 'club_root' })).toEqual(['sound']);
});

test('each crop is asked about the diseases it may carry', async () => {
  const { rules } = await reference('en');
  const asked = (crop: string) => soil_diseases(rules, crop).map(({ finding }) => finding);
  expect(asked('onion')).toEqual(['white_rot']);
  expect(asked('swede')).toEqual(['white_mould', 'club_root']);
  expect(asked('potato')).toEqual(['white_mould', 'blight']);
  expect(asked('apple')).toEqual([]);
});

test('what was on a table or in a pot was in a kitchen', () => {
  expect(question_of({ ...FORM, what: 'plates' }, same).cut_in).toBe('kitchen');
  expect(question_of({ ...FORM, what: 'pot' }, same)).toMatchObject({
    crop: 'stock_pot_solids',
    cut_in: 'kitchen',
  });
  expect(question_of(FORM, same).cut_in).toBe('yard');
});

test('a bucket says that it was a bucket', () => {
  expect(body_of({ ...FORM, measured: 'vessel' }, { 'animals:hens': 1500, compost: 500 })).toEqual({
    crop: 'carrot',
    findings: ['sound'],
    went: [
      { step: 'animals', grams: 1500, part: 'tops', cut_in: 'yard', animals: 'hens' },
      { step: 'compost', grams: 500, part: 'tops', cut_in: 'yard' },
    ],
    measured: 'vessel',
  });
});

test('of an accident they ate some, and what lay there went to compost', () => {
  const body = accident_body({ ...FORM, state: 'mouldy' }, 'hens', 1500, 400);
  expect(body.findings).toEqual(['mould']);
  expect(body.went).toEqual([
    { step: 'animals', grams: 400, part: 'tops', cut_in: 'yard', animals: 'hens', accident: true },
    { step: 'compost', grams: 1100 },
  ]);
});

test('whole pieces stand first among the parts', async () => {
  const { rules } = await reference('en');
  expect(parts_of(rules, 'carrot')[0]).toBe('root');
  expect(parts_of(rules, 'carrot')).toContain('tops');
  expect(parts_of(rules, 'carrot')).not.toContain('bad part');
});

test('what the form offers to an animal the server takes, for every crop, part, place and state', async () => {
  const { rules, crops, in_hand } = await reference('en');
  const group = { kind: 'laying_hen' };
  const law = { country: 'US', confirmed: true, kitchen_to: ['laying_hen'] };
  let offered = 0;
  for (const what of ['one', 'mixed', 'plates', 'pot'] as const satisfies readonly What[])
    for (const crop of what === 'one' ? [...crops, ...in_hand] : ['carrot'])
      for (const part of what === 'one' ? [...parts_of(rules, crop), ''] : [''])
        for (const cut_in of ['store', 'yard', 'kitchen'] as const)
          for (const state of STATES) {
            const form: Form = { what, crop, part, cut_in, state, measured: 'weighed' };
            const answer = may_feed(rules, question_of(form, same), group, law);
            const { findings, went, crop: told } = body_of(form, { 'animals:hens': 300 });
            const refusal = check_went(
              rules,
              went[0] ?? { step: 'bin' },
              { crop: told ?? null, findings, whole: false },
              { hens: group },
              law,
            );
            if (answer.offered) offered += 1;
            expect(refusal === null || !answer.offered, `${what} ${crop} ${part} ${cut_in} ${state}`).toBe(
              true,
            );
            if (state === 'mouldy' || state === 'rotten' || what === 'pot')
              expect(answer.offered).toBe(false);
          }
  expect(offered).toBeGreaterThan(50);
});
