import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = { '/scraps': () => import('./ScrapsPage.svelte') };
