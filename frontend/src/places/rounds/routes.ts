import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/': () => import('./Home.svelte'),
  '/rounds': () => import('./Home.svelte'),
  '/rounds/begin/:space/:minutes?': () => import('./Begin.svelte'),
  '/rounds/walk/:round': () => import('./WalkPage.svelte'),
  '/rounds/suspect/:id': () => import('./SuspectPage.svelte'),
  '/rounds/pencil': () => import('./pencil/PencilPage.svelte'),
  '/rounds/pencil/:space': () => import('./pencil/SheetPage.svelte'),
  '/rounds/typed/:space': () => import('./pencil/TypedPage.svelte'),
  '/rounds/power': () => import('./PowerPage.svelte'),
  '/rounds/chore/:key': () => import('./ChorePage.svelte'),
  '/rounds/ahead': () => import('./AheadPage.svelte'),
  '/rounds/standing': () => import('./StandingPage.svelte'),
  '/rounds/standing/:id': () => import('./StandingForm.svelte'),
};
