/**
 * Every page of the app. A place lists its own pages in `places/<place>/routes.ts`; each is loaded when first opened and
 * precached with the rest. Order within a place matters: the first match wins.
 */
import type { RouteDefinition } from 'svelte-spa-router';
import { wrap } from 'svelte-spa-router/wrap';
import Lost from './places/shared/Lost.svelte';
import type { PlacePages } from './places/shared/pages';

const lists = import.meta.glob<{ readonly routes: PlacePages }>('./places/*/routes.ts', { eager: true });

export const routes: RouteDefinition = {
  ...Object.fromEntries(
    Object.values(lists).flatMap((list) =>
      Object.entries(list.routes).map(([path, asyncComponent]) => [path, wrap({ asyncComponent })]),
    ),
  ),
  '*': Lost,
};
