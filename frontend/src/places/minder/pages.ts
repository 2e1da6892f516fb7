import type { PlacePages } from '../shared/pages';

/** The pages of a minder's phone. Not a place of the family's: these are all it has. */
export const minder_routes: PlacePages = {
  '/walk/:at': () => import('./MinderWalk.svelte'),
  '*': () => import('./MinderPage.svelte'),
};
