import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/scraps': () => import('./ScrapsPage.svelte'),
  '/scraps/winter': () => import('./WinterPage.svelte'),
  '/scraps/children': () => import('./ChildrenPage.svelte'),
  '/scraps/write': () => import('./WritePage.svelte'),
  '/scraps/accident': () => import('./AccidentPage.svelte'),
  '/scraps/bucket/:id': () => import('./BucketPage.svelte'),
  '/scraps/eggs': () => import('./EggsPage.svelte'),
  '/scraps/pail/:group': () => import('./PailPage.svelte'),
  '/scraps/heap/:id': () => import('./HeapPage.svelte'),
  '/scraps/heap/:id/mend': () => import('./HeapForm.svelte'),
  /** A small child's pictures; `child` the person's id. The phone stays on it until an adult takes it back. */
  '/child/:child': () => import('./ChildPage.svelte'),
};
