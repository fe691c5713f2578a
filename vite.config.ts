import { resolve } from 'node:path';
import { defineConfig } from 'vite';

/** The two pages: the packer's bench and the owner's office. */
export default defineConfig({
  root: 'station-ui',
  base: '/',
  build: {
    outDir: '../build/ui',
    emptyOutDir: true,
    target: 'es2022',
    rolldownOptions: {
      input: {
        bench: resolve(import.meta.dirname, 'station-ui/bench.html'),
        office: resolve(import.meta.dirname, 'station-ui/office.html'),
      },
    },
  },
});
