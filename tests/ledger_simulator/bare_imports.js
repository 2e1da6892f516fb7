/** Lets Node find the packages of `frontend/` from this folder, which stands outside it. */
import { registerHooks } from 'node:module';

const packages = new URL('../../frontend/package.json', import.meta.url).href;

registerHooks({
  resolve: (name, context, next) =>
    /^(\.|\/|node:|file:)/.test(name) || context.parentURL?.includes('/node_modules/')
      ? next(name, context)
      : next(name, { ...context, parentURL: packages }),
});
