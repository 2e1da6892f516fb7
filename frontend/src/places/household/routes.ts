import type { PlacePages } from '../shared/pages';

export const routes: PlacePages = {
  '/household': () => import('./Household.svelte'),
  '/household/person/:id': () => import('./PersonPage.svelte'),
  '/household/spaces': () => import('./Spaces.svelte'),
  '/household/space/:id': () => import('./SpacePage.svelte'),
  '/household/animals/:id': () => import('./GroupPage.svelte'),
  '/household/table': () => import('./TablePage.svelte'),
  '/household/guests/:id': () => import('./GuestsPage.svelte'),
  '/household/ring/:at': () => import('./RingPage.svelte'),
  '/household/settings': () => import('./Settings.svelte'),
  '/household/join': () => import('./JoinPhone.svelte'),
  '/household/phones': () => import('./Phones.svelte'),
  '/household/jobs': () => import('./Jobs.svelte'),
  '/household/reminders/:id': () => import('./RemindersPage.svelte'),
  '/household/unsent': () => import('./Unsent.svelte'),
  '/household/leave': () => import('./Leave.svelte'),
  '/needs/:id': () => import('./Needs.svelte'),
  '/needs/:id/accident': () => import('./Accident.svelte'),
  '/join': () => import('./Join.svelte'),
  '/household/minder/:id': () => import('./MinderLink.svelte'),
  '/minder/:token': () => import('./MinderOpen.svelte'),
  '/join/who': () => import('./WhoHolds.svelte'),
  '/join/:code': () => import('./Join.svelte'),
};

/** Of a phone that belongs to no household yet. */
export const first_routes: PlacePages = {
  '/begin': () => import('./Begin.svelte'),
  '/join': () => import('./Join.svelte'),
  '/join/:code': () => import('./Join.svelte'),
  '/minder/:token': () => import('./MinderOpen.svelte'),
  '*': () => import('./First.svelte'),
};
