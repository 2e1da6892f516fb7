import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/kitchen': () => import('./KitchenPage.svelte'),
  '/kitchen/may-i': () => import('./MayIPage.svelte'),
  '/kitchen/may-i/:kind/:id': () => import('./MayIAnswerPage.svelte'),
};
