import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { build, type Plugin } from 'vite';

export interface Kept {
  readonly url: string;
  readonly revision: string;
}

const sha256 = (bytes: string | Buffer): string =>
  createHash('sha256').update(bytes).digest('hex').slice(0, 16);

/** Every built file with the hash of its bytes; the page itself is `/`, since `/index.html` may be redirected. */
export function list_built(dist: string): Kept[] {
  return readdirSync(dist, { recursive: true, withFileTypes: true })
    .filter((file) => file.isFile() && file.name !== 'sw.js' && !file.name.endsWith('.map'))
    .map((file) => join(file.parentPath, file.name))
    .map((path) => ({
      url:
        '/' +
        relative(dist, path)
          .replaceAll('\\', '/')
          .replace(/^index\.html$/, ''),
      revision: sha256(readFileSync(path)),
    }))
    .sort((a, b) => (a.url < b.url ? -1 : 1));
}

/** After the app is built: build the service worker as one file that knows everything it has to keep. */
export function worker(): Plugin {
  let dist = '';
  let root = '';
  return {
    name: 'rounds-worker',
    apply: 'build',
    configResolved(config) {
      root = config.root;
      dist = resolve(config.root, config.build.outDir);
    },
    async closeBundle() {
      const kept = list_built(dist);
      await build({
        root,
        configFile: false,
        logLevel: 'warn',
        publicDir: false,
        define: { __KEEP__: JSON.stringify(kept), __BUILD__: JSON.stringify(sha256(JSON.stringify(kept))) },
        build: {
          emptyOutDir: false,
          outDir: dist,
          target: 'es2022',
          rolldownOptions: {
            input: join(root, 'src/service-worker.ts'),
            output: { format: 'iife', entryFileNames: 'sw.js' },
          },
        },
      });
    },
  };
}
