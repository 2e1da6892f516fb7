import type { PlacePages } from './pages';

/** Pages that belong to no place: they are come to from all of them. */
export const routes: PlacePages = {
  '/find': () => import('./finding/FindPage.svelte'),
  '/scan': () => import('./finding/ScanPage.svelte'),
  '/code/:code': () => import('./finding/CodePage.svelte'),
};
