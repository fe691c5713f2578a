import { readdirSync, readFileSync } from 'node:fs';
import { constants, getPriority } from 'node:os';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import type { PlanJob } from '#server/planning/plan-job.ts';
import { PLANS_AHEAD, plannerHere, PlannerThread } from '#server/planning/planner.ts';
import { demoOrder, demoPieces } from '#tests/benchmarks/demo-orders.ts';
import { seeded } from '#tests/support/seeded.ts';

const shop = loadShop('config');
let job: PlanJob;
let ahead: PlannerThread;

beforeAll(async () => {
  const { pieces } = await demoPieces();
  const order = demoOrder(pieces, 1, seeded(1));
  job = {
    order,
    pieces: pieces.filter(({ sku }) => order.pieces.some((line) => line.sku === sku)),
    day: '2026-11-25',
    without: [],
    beliefs: [],
  };
  ahead = new PlannerThread(() => shop, { ...PLANS_AHEAD, endsAfterMs: 1 });
});

afterAll(() => ahead.stop());

/** Tests that stand back as a whole (`nice npm test`) cannot tell who of them does. */
const CAN_TELL = process.platform === 'linux' && getPriority() < constants.priority.PRIORITY_BELOW_NORMAL;

/** Threads of this process that let all others go first: the rank is the 19th value of all, the name may hold blanks. */
const standingBack = (): number =>
  readdirSync('/proc/self/task').filter((thread) => {
    const stat = readFileSync(`/proc/self/task/${thread}/stat`, 'utf8');
    const rank = stat.slice(stat.lastIndexOf(')') + 2).split(' ')[16];
    return Number(rank) === constants.priority.PRIORITY_BELOW_NORMAL;
  }).length;

describe('the thread of plans made ahead', () => {
  it('plans as a bench would, each time it is there anew', async () => {
    const expected = await plannerHere(shop).containers(job);
    expect(expected).toHaveLength(1);
    for (let time = 0; time < 2; time++) {
      expect(await ahead.containers(job)).toEqual(expected);
      // It has nothing to do any more, and ends.
      if (CAN_TELL) await expect.poll(standingBack).toBe(0);
    }
  });

  it.runIf(CAN_TELL)('lets every other thread go first, and the one that benches wait for does not', async () => {
    const benches = new PlannerThread(() => shop);
    const staying = new PlannerThread(() => shop, { standsBack: true });
    await Promise.all([benches.containers(job), staying.containers(job)]);
    expect(standingBack()).toBe(1);
    await staying.stop();
    expect(standingBack()).toBe(0);
    await benches.stop();
  });
});

it('a thread that was stopped answers nothing and starts no other', async () => {
  const stopped = new PlannerThread(() => shop, PLANS_AHEAD);
  await stopped.stop();
  await expect(stopped.containers(job)).rejects.toThrow('stopped');
});

it('a plan that does not end is given up, and those that wait behind it are made by another thread', async () => {
  const source = new URL('../../support/stuck-planner.mjs', import.meta.url);
  const planner = new PlannerThread(() => shop, { source, longestMs: 2500 });
  const named = (id: string) => ({ ...job, order: { ...job.order, id } });
  const containersOf = (id: string) => planner.containers(named(id));
  const stuck = planner.plan(named('stuck'));
  expect(await Promise.all([stuck, containersOf('next'), containersOf('last')])).toEqual([
    {
      ok: false,
      code: 'took-too-long',
      why: 'the plan of order stuck took longer than 2.5 s and was given up',
      whyNot: [],
    },
    ['next'],
    ['last'],
  ]);
  await planner.stop();
});
