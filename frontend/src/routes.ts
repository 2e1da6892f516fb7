/**
 * Every page of the app. A place lists its own pages in `places/<place>/routes.ts`; each is loaded when first opened and
 * precached with the rest. Order within a place matters: the first match wins.
 */
import type { RouteDefinition } from 'svelte-spa-router';
import { wrap } from 'svelte-spa-router/wrap';
import { first_routes } from './places/household/routes';
import { minder_routes } from './places/minder/pages';
import Lost from './places/shared/Lost.svelte';
import type { PlacePages } from './places/shared/pages';

const lists = import.meta.glob<{ readonly routes: PlacePages }>('./places/*/routes.ts', { eager: true });

const wrapped = (pages: PlacePages): RouteDefinition =>
  Object.fromEntries(Object.entries(pages).map(([path, asyncComponent]) => [path, wrap({ asyncComponent })]));

/** Fetch the page an address opens on while the store is still being read. */
export function fetch_ahead(hash: string): void {
  const path = hash.replace(/^#/, '').replace(/^\/?$/, '/rounds');
  void Object.values(lists)
    .map((list) => list.routes[path])
    .find((page) => page !== undefined)?.();
}

/** Of an open household. */
export const routes: RouteDefinition = {
  ...Object.assign({}, ...Object.values(lists).map((list) => wrapped(list.routes))),
  '*': Lost,
};

/** Of whoever minds the place: their days, and nothing else. */
export const minding: RouteDefinition = wrapped(minder_routes);

/** Of a phone that belongs to no household yet. */
export const first: RouteDefinition = wrapped(first_routes);
