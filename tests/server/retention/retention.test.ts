import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Retention } from '#server/retention/retention.ts';
import type { Store } from '#server/store/open.ts';
import { saveSweepMemory } from '#server/store/sweeps.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const HOUR_MS = 3_600_000;
const START = Date.parse('2026-11-25T18:00:00Z');
let data: ReturnType<typeof temporaryFolder>;
let store: Store;

beforeAll(async () => {
  data = temporaryFolder('retention');
  store = await openTestStore(data.path);
});
afterAll(async () => {
  await store.destroy();
  data.remove();
});

it('what holds up inputs is removed once nobody packs, or after half a day; what does not, at once', async () => {
  let now = START;
  let packing = true;
  const removed: string[] = [];
  const keptFor = (what: string) => ({
    what,
    remove: () => {
      removed.push(what);
      return Promise.resolve(1);
    },
  });
  const retention = new Retention({
    store,
    clock: { now: () => now },
    log: pino({ level: 'silent' }),
    isPacking: () => packing,
    kept: [keptFor('photos'), { ...keptFor('buyers'), holdsUpInputs: true }],
  });
  const lookAfter = async (hours: number) => {
    now += hours * HOUR_MS;
    removed.length = 0;
    await retention.look();
    return [...removed];
  };
  for (const what of ['photos', 'buyers']) await saveSweepMemory(store, what, { at: START, heldAt: null });
  expect(await lookAfter(21)).toEqual(['photos']);
  expect(await lookAfter(1)).toEqual([]);
  packing = false;
  expect(await lookAfter(1)).toEqual(['buyers']);
  packing = true;
  expect(await lookAfter(21)).toEqual(['photos']);
  expect(await lookAfter(11)).toEqual([]);
  expect(await lookAfter(1)).toEqual(['buyers']);
  // Each time it waits anew.
  expect(await lookAfter(21)).toEqual(['photos']);
  await retention.stop();
});
