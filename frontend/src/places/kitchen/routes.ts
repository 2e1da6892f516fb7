import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/kitchen': () => import('./KitchenPage.svelte'),
};
