import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { worker } from './worker.plugin.ts';

const here = fileURLToPath(new URL('.', import.meta.url));
const outside = fileURLToPath(new URL('../tests/', import.meta.url));

/** The number a build tells the server with each push; the server may ask for a newer one (426). */
const build_number = process.env['ROUNDS_BUILD'] ?? '1';

/** What was folded by other rules than these is not shown again. */
function rules_hash(): string {
  const folder = `${here}src/storekeeping/`;
  const hash = createHash('sha256');
  for (const name of readdirSync(folder).sort())
    if (!name.endsWith('.test.ts')) hash.update(name).update(readFileSync(folder + name));
  return hash.digest('hex').slice(0, 16);
}

/** Many small files compress worse and are asked for one by one: a place's pages go together, after the first load. */
const BY_PLACE = ['store', 'kitchen', 'scraps', 'season', 'household'].map((place) => ({
  name: `at-${place}`,
  test: new RegExp(`/src/places/${place}/\\w+\\.svelte$`),
}));

/** Tests of the simulator stand outside this folder and use the packages installed in it. */
function packages_for_tests_outside(): Plugin {
  return {
    name: 'packages-for-tests-outside',
    enforce: 'pre',
    async resolveId(source, importer) {
      if (!importer?.startsWith(outside) || /^([./\0]|@phone\/)/.test(source)) return null;
      return this.resolve(source, `${here}package.json`, { skipSelf: true });
    },
  };
}

export default defineConfig(({ mode }) => ({
  plugins: [packages_for_tests_outside(), svelte(), ...(mode === 'test' ? [svelteTesting()] : [worker()])],
  define: { __APP_BUILD__: JSON.stringify(build_number), __RULES__: JSON.stringify(rules_hash()) },
  build: {
    target: 'es2022',
    modulePreload: { polyfill: false },
    rolldownOptions: {
      output: { codeSplitting: { includeDependenciesRecursively: false, groups: BY_PLACE } },
    },
  },
  server: { proxy: { '/api': { target: 'http://127.0.0.1:8000', changeOrigin: false } } },
  resolve: { alias: { '@phone': `${here}src` } },
  test: {
    environment: 'happy-dom',
    setupFiles: ['src/reference/serve_built.ts'],
    css: { include: [/tokens\.css/] },
    include: ['*.test.ts', 'src/**/*.test.ts', 'lint/*.test.js', '../tests/ledger_simulator/**/*.test.ts'],
  },
}));
