import { fireEvent, render, screen } from '@testing-library/svelte';
import { beforeEach, expect, test } from 'vitest';
import { tongue } from '../../words';
import { house } from './house.svelte';
import { sending } from './sending.svelte';
import SyncWords from './SyncWords.svelte';

const status = { to_send: 0, photos_to_send: 0, needs_you: 0 };
const shown = () => screen.getAllByRole('button').map((button) => button.textContent?.trim());

beforeEach(() => {
  tongue.follow('en');
  house.now = new Date('2026-01-13T17:00:00Z');
  house.status = status;
  sending.open = false;
});

test('nothing waits: all sent', () => {
  render(SyncWords);
  expect(shown()).toEqual(['All sent']);
});

test('what waits is counted, and what needs a person stands beside it', () => {
  house.status = { ...status, to_send: 3, photos_to_send: 2, needs_you: 1 };
  render(SyncWords);
  expect(shown()).toEqual(['3 to send, 2 photos', '1 needs you']);
});

test('photos alone are told too', () => {
  house.status = { ...status, photos_to_send: 1 };
  render(SyncWords);
  expect(shown()).toEqual(['1 photo to send']);
});

test('what has waited for days says so', () => {
  house.status = { ...status, to_send: 1, oldest: '2026-01-10T08:00:00Z' };
  render(SyncWords);
  expect(shown()).toEqual(['1 to send, oldest 3 days']);
});

test('a stop of the exchange and a store that may be lost are words of their own', () => {
  house.status = { ...status, halt: 'sign_in', not_kept_safe: true };
  render(SyncWords);
  expect(shown()).toEqual(['All sent', 'Sign in', 'Not kept safe']);
});

test('touched, the sheet behind them rises', async () => {
  render(SyncWords);
  await fireEvent.click(screen.getByRole('button', { name: 'All sent' }));
  expect(sending.open).toBe(true);
});
