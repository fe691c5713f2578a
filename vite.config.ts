import { resolve } from 'node:path';
import { defineConfig } from 'vite';

/** The two pages: the packer's bench and the owner's office. */
export default defineConfig({
  root: 'station-ui',
  base: '/',
  // The camera's decoders are loaded one by one in their worker.
  worker: { format: 'es' },
  build: {
    outDir: '../build/ui',
    emptyOutDir: true,
    target: 'es2022',
    rolldownOptions: {
      checks: { pluginTimings: false },
      input: {
        bench: resolve(import.meta.dirname, 'station-ui/bench.html'),
        office: resolve(import.meta.dirname, 'station-ui/office.html'),
      },
    },
  },
});
