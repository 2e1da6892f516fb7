import { render, screen } from '@testing-library/svelte';
import { expect, test, vi } from 'vitest';
import Shelf from './Shelf.svelte';

const lots = Array.from({ length: 50 }, (_, at) => ({
  id: `lot${at}`,
  href: `#/store/lot/lot${at}`,
  crop: 'carrot',
  pack: 'sand',
  left: 0.5,
  name: `Carrot, box ${at}`,
  amount: '4 kg',
}));

test('a long shelf draws a screen at once and the others soon, and keeps their place meanwhile', async () => {
  render(Shelf, { label: 'Root cellar', lots });
  expect(screen.getAllByRole('listitem')).toHaveLength(18);
  expect(screen.getByRole('list').style.marginBottom).toBe('1650px');
  await vi.waitFor(() => expect(screen.getAllByRole('listitem')).toHaveLength(50));
  expect(screen.getByRole('list').style.marginBottom).toBe('');
});

test('a short shelf is drawn whole', () => {
  render(Shelf, { lots: lots.slice(0, 5) });
  expect(screen.getAllByRole('link')).toHaveLength(5);
  expect(screen.getByRole('list').style.marginBottom).toBe('');
});
