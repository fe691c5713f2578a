import { afterAll, expect, it } from 'vitest';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { faultyDay } from '#tests/support/day/faulty-day.ts';

afterAll(removeConfigFolders);

it('a server killed at random moments of a day at two benches keeps everything that must hold', async () => {
  const end = await faultyDay({ kills: 3, benches: 2, seed: 20_261_125, livesFor: 20 });
  expect(end.broken).toEqual([]);
  expect(end.acknowledged).toBeGreaterThan(5);
  expect(end.inputs).toBeGreaterThan(5);
}, 120_000);
