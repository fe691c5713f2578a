import { defineConfig } from 'vitest/config';

const decorators = { oxc: { decorator: { legacy: true } } } as const;

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'core',
          include: ['tests/{shared,standards,config,drivers,server,documents}/**/*.test.ts'],
          globalSetup: ['tests/support/build.mjs'],
          setupFiles: ['tests/support/seed.ts'],
          testTimeout: 20_000,
          // Most of the time goes into waiting for lines, sockets and deadlines.
          maxWorkers: 2,
        },
      },
      {
        ...decorators,
        test: { name: 'ui', include: ['tests/station-ui/**/*.test.ts'], environment: 'happy-dom', maxWorkers: 2 },
      },
      {
        test: {
          name: 'browser',
          globalSetup: ['tests/support/build.mjs'],
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          // Pages mostly wait: for motion, for sound, for a scale that settles.
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
