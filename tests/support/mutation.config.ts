import { defineConfig } from 'vitest/config';

/**
 * The tests that mutants of the core are run against: its own and those of the published values; no build, no browser.
 * MUTATION_TESTS=rating,units keeps to those of these folders and of the published values, which is many times faster
 * where everything else is built on what is mutated.
 */
const folders = process.env['MUTATION_TESTS']?.split(',') ?? ['**'];

export default defineConfig({
  test: {
    include: ['tests/standards/**/*.test.ts', ...folders.map((folder) => `tests/shared/${folder}/**/*.test.ts`)],
    setupFiles: ['tests/support/seed.ts'],
    testTimeout: 20_000,
    // Static mutants are left out, so modules need not be read anew for every file.
    isolate: false,
    env: { FEW_RUNS: '1' },
  },
});
