/** Builds `frontend/src/capture` as one script, to be tried in a page of its own. */
import { fileURLToPath } from 'node:url';

export default {
  configFile: false,
  logLevel: 'warn',
  define: { __APP_BUILD__: '"0"' },
  build: {
    emptyOutDir: false,
    lib: {
      entry: fileURLToPath(new URL('../../frontend/src/capture/index.ts', import.meta.url)),
      formats: ['iife'],
      name: 'camera',
      fileName: () => 'camera.js',
    },
  },
};
