import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/season': () => import('./SeasonPage.svelte'),
};
