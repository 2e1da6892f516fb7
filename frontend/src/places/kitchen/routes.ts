import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/kitchen': () => import('./KitchenPage.svelte'),
  '/kitchen/clocks': () => import('./ClocksPage.svelte'),
  '/kitchen/dishes': () => import('./DishesPage.svelte'),
  '/kitchen/dishes/new': () => import('./DishFormPage.svelte'),
  '/kitchen/dishes/:id': () => import('./DishPage.svelte'),
  '/kitchen/dishes/:id/change': () => import('./DishFormPage.svelte'),
  '/kitchen/give': () => import('./GivePage.svelte'),
  '/kitchen/give/:lot': () => import('./GiveLotPage.svelte'),
  '/kitchen/may-i': () => import('./MayIPage.svelte'),
  '/kitchen/may-i/:kind/:id': () => import('./MayIAnswerPage.svelte'),
  '/kitchen/pot': () => import('./PotPage.svelte'),
  '/kitchen/put-by': () => import('./PutByPage.svelte'),
  '/kitchen/put-by/:lot': () => import('./PutByLotPage.svelte'),
};
