/** What a place's `routes.ts` exports as `routes`: a hash path, such as `/store/lot/:id`, and how its page is loaded. */
import type { AsyncSvelteComponent } from 'svelte-spa-router/wrap';

/** Pages get the parts of their path as the prop `params`: `let { params }: { params: { id: string } } = $props()`. */
export type PlacePages = Readonly<Record<string, AsyncSvelteComponent>>;
