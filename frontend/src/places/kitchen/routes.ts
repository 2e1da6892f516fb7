import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/kitchen': () => import('./KitchenPage.svelte'),
  '/kitchen/may-i': () => import('./MayIPage.svelte'),
  '/kitchen/may-i/:kind/:id': () => import('./MayIAnswerPage.svelte'),
  '/kitchen/pot': () => import('./PotPage.svelte'),
  '/kitchen/put-by': () => import('./PutByPage.svelte'),
  '/kitchen/put-by/:lot': () => import('./PutByLotPage.svelte'),
};
