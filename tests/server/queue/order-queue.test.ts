import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { loadShop } from '#config/load.ts';
import { seedDemo } from '#server/office/demo.ts';
import { plannerHere } from '#server/planning/planner.ts';
import type { PlanJob } from '#server/planning/plan-job.ts';
import { OrderQueue } from '#server/queue/order-queue.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { claimOrder, closeOrder, saveOrder } from '#server/store/orders.ts';
import { allPieces, savePieces } from '#server/store/pieces.ts';
import { changeStock } from '#server/store/stock.ts';
import { benchRun, finish, give } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const shop = loadShop('config');
const clock = { now: () => Date.parse('2026-11-25T16:00:00Z') };
let data: ReturnType<typeof temporaryFolder>;
let store: Store;
let planned: string[];
let queue: OrderQueue;

beforeEach(async () => {
  data = temporaryFolder('queue');
  store = await openTestStore(data.path);
  await seedDemo('config', shop, store, clock);
  planned = [];
  const planner = plannerHere(shop);
  const containers = (job: PlanJob) => {
    planned.push(job.order.id);
    return planner.containers(job);
  };
  queue = new OrderQueue({ shop: () => shop, clock, planner: { containers } });
});

afterEach(async () => {
  await store.destroy();
  data.remove();
});

const catchUp = async () => queue.plans.catchUp(store, await queue.waiting(store, null));
const idsOf = async (bench = 'bench-1') => (await queue.next(store, bench, 100)).orders.map(({ id }) => id);
const claim = (order: string, bench = 'bench-1', within: StoreOrTransaction = store) =>
  claimOrder(within, { order, bench, run: `run of ${order}`, now: clock.now() });

describe('the queue of all benches', () => {
  it('begins with what is collected first, and each order waits once', async () => {
    const { orders } = await queue.next(store, 'bench-1', 100);
    const collections = orders.map(({ collection }) => collection);
    expect(collections).toEqual([...collections].sort((a, b) => a - b));
    expect(new Set(orders.map(({ id }) => id)).size).toBe(50);
  });

  it('loses what is claimed at once, and has it again when it is released', async () => {
    const [first = '', second] = await idsOf();
    expect(await claim(first)).toBe(true);
    expect((await idsOf())[0]).toBe(second);
    await closeOrder(store, { order: first, state: 'open', reason: null, now: clock.now() });
    expect((await idsOf())[0]).toBe(first);
  });

  it('sees a changed ship-by time, though the clock stands still', async () => {
    const { orders } = await queue.next(store, 'bench-1', 100);
    const last = orders.at(-1);
    if (last === undefined) throw new Error('nothing waits');
    await saveOrder(store, { ...last.order, shipBy: '2026-11-25T13:00:00Z' }, clock.now());
    expect((await idsOf())[0]).toBe(last.id);
  });

  it('loses nothing to a claim that is undone, though it was looked at meanwhile', async () => {
    const before = await idsOf();
    const [first = ''] = before;
    const undone = inTransaction(store, async (transaction) => {
      await claimOrder(transaction, { order: first, bench: 'bench-1', run: 'run of nobody', now: clock.now() });
      const { orders } = await queue.next(transaction, 'bench-1', 100);
      expect(orders.map(({ id }) => id)).not.toContain(first);
      throw new Error('undone');
    });
    await expect(undone).rejects.toThrow('undone');
    expect(await idsOf()).toEqual(before);
  });

  it('counts as many with each collection as wait, whatever happens to them', async () => {
    const check = async () => {
      const waiting = await queue.waiting(store, null);
      const counts = new Map<number, number>();
      for (const { collection } of waiting) counts.set(collection, (counts.get(collection) ?? 0) + 1);
      const { open, collections } = await queue.counted(store);
      expect(open).toBe(waiting.length);
      expect(new Map(collections.inTurn().flatMap((block) => [...block.collections]))).toEqual(counts);
    };
    const [first = '', second = '', third] = await idsOf();
    await check();
    await claim(first);
    await claim(second);
    await check();
    const { orders } = await queue.next(store, 'bench-1', 100);
    const late = orders.find(({ id }) => id === third);
    if (late === undefined) throw new Error('nothing waits');
    await saveOrder(store, { ...late.order, shipBy: '2026-11-28T13:00:00Z' }, clock.now());
    await closeOrder(store, { order: first, state: 'open', reason: null, now: clock.now() });
    await check();
    await savePieces(store, [...(await allPieces(store)).values()].slice(0, 1));
    await check();
  });

  it('goes on with the container of the last parcel, where the collection is the same', async () => {
    await catchUp();
    const waiting = await queue.waiting(store, null);
    expect(waiting.every(({ container, parcels }) => container !== null && parcels !== null)).toBe(true);
    const run = benchRun({ store, shop, clock });
    await give(run, 'next');
    await finish(run, clock.now(), 'LABEL-FIRST-');
    const container = run.state.parcels.at(-1)?.container.id;
    const { orders, before } = await queue.next(store, 'bench-1', 100);
    expect(before.container).toBe(container);
    const soonest = orders.filter(({ collection }) => collection === orders[0]?.collection);
    const same = soonest.map((each) => each.container === container);
    expect(same).toEqual([...same].sort((a, b) => Number(b) - Number(a)));
    // The other bench has packed nothing: there the oldest goes first.
    expect((await queue.next(store, 'bench-2', 1)).before).toEqual({ container: null, shelf: null });
  });
});

describe('plans that are made ahead', () => {
  it('are kept, and made anew for what has changed alone', async () => {
    expect(await catchUp()).toBe(true);
    expect(planned).toHaveLength(50);
    planned = [];
    expect(await catchUp()).toBe(false);
    expect(planned).toEqual([]);
    const [order] = (await queue.next(store, 'bench-1', 1)).orders;
    if (order === undefined) throw new Error('nothing waits');
    await saveOrder(store, { ...order.order, to: { postcode: '90001', country: 'US' } }, clock.now());
    await catchUp();
    expect(planned).toEqual([order.id]);
  });

  it('are made of what changes while they are made, too', async () => {
    const making = catchUp();
    const [order] = (await queue.next(store, 'bench-1', 1)).orders;
    if (order === undefined) throw new Error('nothing waits');
    await expect.poll(() => planned.includes(order.id)).toBe(true);
    await saveOrder(store, { ...order.order, to: { postcode: '90001', country: 'US' } }, clock.now());
    await Promise.all([making, catchUp()]);
    expect(planned.filter((id) => id === order.id)).toHaveLength(2);
    expect((await queue.waiting(store, null)).every(({ parcels }) => parcels !== null)).toBe(true);
  });

  it('are made anew when a container has run out, and then do without it', async () => {
    await catchUp();
    const waiting = await queue.waiting(store, null);
    const container = waiting[0]?.container ?? '';
    const item = shop.supplies?.find((each) => each.container === container)?.id ?? '';
    planned = [];
    await changeStock(store, { item, kind: 'counted', amount: 0, reason: '', who: null, at: clock.now() });
    expect(await catchUp()).toBe(true);
    expect(planned).toHaveLength(50);
    expect((await queue.waiting(store, null)).map((each) => each.container)).not.toContain(container);
  });

  it('are made anew when pieces change', async () => {
    await catchUp();
    planned = [];
    const [piece] = [...(await allPieces(store)).values()];
    if (piece === undefined) throw new Error('no pieces');
    await savePieces(store, [{ ...piece, place: 'Z9' }]);
    await catchUp();
    expect(planned).toHaveLength(50);
  });
});

it('no order is taken twice, and nobody goes without one while some wait, however the benches cut in', async () => {
  await fc.assert(
    fc.asyncProperty(fc.scheduler(), async (scheduler) => {
      const all = await idsOf();
      await inTransaction(store, async (transaction) => {
        for (const id of all.slice(4)) await claim(id, 'bench-9', transaction);
      });
      const seen = scheduler.scheduleFunction((bench: string) => queue.next(store, bench, 20));
      const claimed = scheduler.scheduleFunction((id: string, bench: string) => claim(id, bench));
      const takeOne = async (bench: string): Promise<string | null> => {
        for (const { id } of (await seen(bench)).orders) if (await claimed(id, bench)) return id;
        return null;
      };
      const benches = ['bench-1', 'bench-2', 'bench-3', 'bench-4', 'bench-5'];
      const [taken] = await Promise.all([Promise.all(benches.map(takeOne)), scheduler.waitIdle()]);
      const got = taken.filter((id) => id !== null);
      expect(new Set(got).size).toBe(got.length);
      expect(got).toHaveLength(4);
      await inTransaction(store, async (transaction) => {
        for (const id of all) {
          await closeOrder(transaction, { order: id, state: 'open', reason: null, now: clock.now() });
        }
      });
    }),
    { numRuns: 15 },
  );
});
