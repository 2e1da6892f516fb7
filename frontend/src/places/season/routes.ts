import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/season': () => import('./SeasonPage.svelte'),
  '/season/rooms': () => import('./RoomsPage.svelte'),
  '/season/reading': () => import('./ReadingPage.svelte'),
  '/season/weeks': () => import('./WeeksPage.svelte'),
  '/season/varieties': () => import('./VarietiesPage.svelte'),
  '/season/score': () => import('./ScorePage.svelte'),
  '/season/plant': () => import('./PlantPage.svelte'),
  '/season/plant/:crop': () => import('./PlantCropPage.svelte'),
};
