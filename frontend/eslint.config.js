import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import { no_foreign_await } from './lint/no_foreign_await.js';
import svelteConfig from './svelte.config.js';

const places = ['rounds', 'store', 'kitchen', 'scraps', 'season', 'household'];
const keepOut = (group, message) => ({
  'no-restricted-imports': ['error', { patterns: [{ group, message }] }],
});

/** The layers of the frontend, as import-linter holds them in Python. */
const layers = [
  {
    files: ['src/storekeeping/**'],
    ignores: ['src/storekeeping/**/*.test.ts'],
    rules: keepOut(
      ['../*', 'svelte', 'svelte/*', 'idb'],
      'storekeeping imports nothing of ours, no framework, no database',
    ),
  },
  {
    files: ['src/ledger/**'],
    rules: keepOut(
      ['**/places/**', '**/look/**', '**/capture/**', '**/words/**', 'svelte', 'svelte/*'],
      'ledger may import storekeeping and wire only',
    ),
  },
  {
    files: ['src/wire/**'],
    rules: keepOut(['../*'], 'wire holds generated types and what reads them'),
  },
  {
    files: ['src/look/**'],
    rules: keepOut(['**/places/**', '**/ledger/**', '**/wire/**'], 'look knows no place and no ledger'),
  },
  ...places.map((place) => ({
    files: [`src/places/${place}/**`],
    rules: keepOut(
      places.filter((p) => p !== place).map((p) => `**/${p}/**`),
      'a place never imports another place; share through src/places/shared or src/look',
    ),
  })),
];

export default ts.config(
  { ignores: ['dist', 'src/wire/schema.d.ts'] },
  js.configs.recommended,
  ...ts.configs.strict,
  ...svelte.configs.recommended,
  { languageOptions: { globals: { ...globals.browser, ...globals.serviceworker } } },
  // Leaving a field out of a row is done by naming it beside the rest.
  { rules: { '@typescript-eslint/no-unused-vars': ['error', { ignoreRestSiblings: true }] } },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: {
      parserOptions: {
        projectService: true,
        extraFileExtensions: ['.svelte'],
        parser: ts.parser,
        svelteConfig,
      },
    },
  },
  {
    files: ['src/ledger/**'],
    plugins: { ledger: { rules: { 'no-foreign-await': no_foreign_await } } },
    rules: { 'ledger/no-foreign-await': 'error' },
  },
  ...layers,
);
