import { defineConfig } from 'vitest/config';

const decorators = { oxc: { decorator: { legacy: true } } } as const;

/** Tests of what is stored, and of servers as a whole on what is stored. */
const ON_POSTGRES = [
  'tests/server/{two-benches,day-board,supplies}.test.ts',
  'tests/server/office/{search,cancelling}.test.ts',
  'tests/server/office/imports/bulk.test.ts',
  'tests/server/cli/personal-data.test.ts',
  'tests/server/injection/stored.test.ts',
  'tests/server/retention/grown.test.ts',
  'tests/server/queue/**/*.test.ts',
  'tests/server/store/{planned-parcels,transactions}.test.ts',
];

// Waits that end as soon as what they wait for is there: long, so that a busy machine fails no test.
const PATIENCE = { testTimeout: 60_000, hookTimeout: 60_000, expect: { poll: { timeout: 15_000 } } } as const;

// A seed puts the files into an order of its own; a test that leans on another file's leavings shows itself in some of them.
const { BENCHFOLD_TEST_ORDER: order } = process.env;

export default defineConfig({
  test: {
    ...(order === undefined ? {} : { sequence: { shuffle: { files: true, tests: false }, seed: Number(order) } }),
    projects: [
      {
        test: {
          name: 'core',
          include: ['tests/{shared,standards,config,drivers,server,documents}/**/*.test.ts'],
          globalSetup: ['tests/support/build.mjs', 'tests/support/shared-cluster.ts'],
          setupFiles: ['tests/support/seed.ts'],
          ...PATIENCE,
          // Most of the time goes into waiting for lines, sockets and deadlines.
          maxWorkers: 3,
          // Modules are read once for many files: a third of the processor's time. A file leaves nothing behind it.
          isolate: false,
        },
      },
      {
        test: {
          // The same tests as in core, on the other kind of store.
          name: 'postgres',
          include: ON_POSTGRES,
          env: { BENCHFOLD_TESTS_ON_POSTGRES: 'yes' },
          globalSetup: ['tests/support/build.mjs', 'tests/support/shared-cluster.ts'],
          setupFiles: ['tests/support/seed.ts'],
          ...PATIENCE,
          maxWorkers: 3,
          isolate: false,
        },
      },
      {
        ...decorators,
        test: {
          name: 'ui',
          include: ['tests/station-ui/**/*.test.ts'],
          environment: 'happy-dom',
          maxWorkers: 3,
          isolate: false,
        },
      },
      {
        test: {
          name: 'browser',
          globalSetup: ['tests/support/build.mjs', 'tests/support/shared-browser.ts'],
          include: ['tests/browser/**/*.test.ts'],
          ...PATIENCE,
          testTimeout: 120_000,
          hookTimeout: 120_000,
          // Pages mostly wait: for motion, for sound, for a scale that settles.
          maxWorkers: 2,
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
