/// <reference types="node" />
/** For vitest only: answers requests for the built tables from the disk, as the server does from its files. */

import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const network = globalThis.fetch;

globalThis.fetch = (asked, init) => {
  const address = asked instanceof Request ? asked.url : String(asked);
  const [, name] = /\/src\/reference\/built\/([a-z_./]+\.json)/.exec(address) ?? [];
  if (name === undefined) return network(asked, init);
  return Promise.resolve(new Response(readFileSync(join(here, 'built', name)), { status: 200 }));
};
