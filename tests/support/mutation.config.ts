import { defineConfig } from 'vitest/config';

/** The tests that mutants of the core are run against: its own and those of the published values; no build, no browser. */
export default defineConfig({
  test: {
    include: ['tests/{shared,standards}/**/*.test.ts'],
    setupFiles: ['tests/support/seed.ts'],
    testTimeout: 20_000,
  },
});
