// @vitest-environment node
import { RuleTester } from 'eslint';
import { describe, it } from 'vitest';
import { no_foreign_await } from './no_foreign_await.js';

RuleTester.describe = describe;
RuleTester.it = it;

const foreign = [{ messageId: 'foreign' }];

new RuleTester().run('hazard 16: no foreign await inside a store transaction', no_foreign_await, {
  valid: [
    "store.write(['a'], async (tx) => { await tx.put('a', row); });",
    "store.write(['a'], async (tx) => { await put_line(tx, row); });",
    "store.write(['a'], async (tx) => { const numbers = await Numbers.of(tx); await numbers.keep(); });",
    "store.read(['a'], async (tx) => { await Promise.all(ids.map((id) => tx.get('a', id))); });",
    'async function send(transport) { await transport.send(request); }',
    "async function cycle(store) { await fetch('/x'); await store.write(['a'], (tx) => tx.put('a', row)); }",
    "async function put(tx) { for (const row of rows) await tx.put('a', row); }",
  ],
  invalid: [
    { code: "store.write(['a'], async (tx) => { await fetch('/x'); });", errors: foreign },
    { code: "store.write(['a'], async (tx) => { await tx.get('a', 1); await sleep(1); });", errors: foreign },
    {
      code: "async function put(tx) { const photo = await shrink(file); await tx.put('a', photo); }",
      errors: foreign,
    },
    {
      code: 'async function put(tx) { await Promise.all(files.map((file) => hash(file))); }',
      errors: foreign,
    },
    { code: "async function put(tx) { for await (const row of rows) tx.put('a', row); }", errors: foreign },
    {
      code: 'const act = (store) => store.write([], async (tx) => { await this.other.write([], () => 1); });',
      errors: foreign,
    },
  ],
});
