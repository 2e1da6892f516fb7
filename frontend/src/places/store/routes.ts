import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/store': () => import('./StorePage.svelte'),
  '/store/put-away': () => import('./PutAwayPage.svelte'),
  '/store/labels': () => import('./labels/LabelsPage.svelte'),
  '/store/vessels': () => import('./VesselsPage.svelte'),
  '/store/vessel/:id': () => import('./VesselPage.svelte'),
  '/store/lot/:id': () => import('./LotPage.svelte'),
  '/store/lot/:id/entries': () => import('./EntriesPage.svelte'),
  '/store/lot/:id/details': () => import('./DetailsPage.svelte'),
  '/store/lot/:id/count': () => import('./CountPage.svelte'),
  '/store/lot/:id/move': () => import('./MoveLotPage.svelte'),
  '/store/lot/:id/pack': () => import('./MoveLotPage.svelte'),
  '/store/lot/:id/out': () => import('./OutPage.svelte'),
  '/store/lot/:id/accident': () => import('./AccidentPage.svelte'),
  '/store/lot/:id/aside': () => import('./AsidePage.svelte'),
};
