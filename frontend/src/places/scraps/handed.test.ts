// The phone stays with the child's pictures until an adult takes it back.
import { afterEach, expect, test } from 'vitest';
import { child_page, hand_over, handed_to, hold_if_handed, take_back } from './handed';

afterEach(() => {
  take_back();
  location.hash = '';
});

const turned = () => new Promise((done) => setTimeout(done, 20));

test('wherever the page is sent, it comes back to the pictures', async () => {
  location.hash = child_page('pip');
  hand_over('pip');
  location.hash = '#/household';
  await turned();
  expect(location.hash).toBe('#/child/pip');
});

test('a reload finds the phone still handed over', async () => {
  localStorage.setItem('rounds.handed_to', 'pip');
  location.hash = '#/rounds';
  hold_if_handed();
  await turned();
  expect(location.hash).toBe('#/child/pip');
});

test('once an adult has taken it back it goes anywhere', async () => {
  hand_over('pip');
  take_back();
  location.hash = '#/household';
  await turned();
  expect(location.hash).toBe('#/household');
  expect(handed_to()).toBeUndefined();
});
