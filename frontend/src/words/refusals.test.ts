import { expect, test } from 'vitest';
import { refusals_de } from './refusals.de.ts';
import { refusals_en } from './refusals.en.ts';
import { why_refused } from './refusals.ts';

const refused = (code: string, reason?: string) =>
  why_refused({ code, message: 'The server says so.', facts: reason === undefined ? {} : { reason } });

test('what is not to be put by comes back with its reason, in both languages', () => {
  for (const reason of ['unsure', 'spoilt', 'patulin', 'not_sound', 'not_known']) {
    expect(refused('not_to_put_by', reason)).toBe(refusals_en.put_by[reason]);
    expect(refusals_de.put_by).toHaveProperty(reason);
  }
});

test('a feeding rule by its reason, another code by its own words, an unknown one by what the server says', () => {
  expect(refused('never', 'rot_or_mould')).toBe(refusals_en.reasons['rot_or_mould']);
  expect(refused('eggs_held')).toBe(refusals_en.codes['eggs_held']);
  expect(refused('of_a_newer_server')).toContain('The server says so.');
  expect(refused('not_to_put_by', 'of_a_newer_server')).toContain('The server says so.');
});
