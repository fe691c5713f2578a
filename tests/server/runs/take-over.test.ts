import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { benchRun, finish, give, onTo, take } from '#tests/support/finish-run.ts';
import { demoPieces } from '#tests/benchmarks/demo-orders.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import type { BenchRun } from '#server/runs/bench-run.ts';
import { holdClaim, LEASE_MS, takeOverClaim } from '#server/store/leases.ts';
import { openStore, type Store } from '#server/store/open.ts';
import { claimOrder, closeOrder, findOrder, saveOrders } from '#server/store/orders.ts';
import { savePieces } from '#server/store/pieces.ts';
import { loadBench } from '#server/store/runs.ts';

const NOON = Date.UTC(2026, 10, 25, 18);
const { shop, pieces } = await demoPieces();
const opened: { close(): Promise<void> }[] = [];

afterEach(async () => {
  for (const each of opened.splice(0)) await each.close();
});

async function storeWith(orders: number): Promise<Store> {
  const data = temporaryFolder('take-over');
  const store = await openStore(data.path);
  opened.push({
    close: async () => {
      await store.destroy();
      data.remove();
    },
  });
  const chosen = pieces.slice(0, orders);
  await savePieces(store, chosen);
  const made = chosen.map(({ sku }, index) => ({
    id: `T${String(index)}`,
    pieces: [{ sku, count: 1 }],
    buyer: 'A Buyer',
    address: ['1 Any Street'],
    to: { postcode: '55802', country: 'US' },
    shipBy: '2026-11-26T16:00:00Z',
  }));
  await saveOrders(store, made, NOON);
  return store;
}

/** Two benches of one shop on one store; what one takes from the other the other hears at once, or only when it is given something. */
async function twoBenches({ told = true } = {}) {
  const store = await storeWith(3);
  const clock = { at: NOON, now: () => clock.at };
  const runs: BenchRun[] = [];
  for (const bench of [0, 1]) {
    const onTakenOver = told ? () => void runs[1 - bench]?.beat() : undefined;
    runs.push(benchRun({ store, shop, clock, bench, ...(onTakenOver === undefined ? {} : { onTakenOver }) }));
  }
  const [one, two] = runs;
  if (one === undefined || two === undefined) throw new Error('two benches are needed');
  for (const run of runs) await run.load();
  return { store, clock, one, two };
}

const scanTwice = async (run: BenchRun, order: string) => {
  await take(run, order);
  await take(run, order);
};

describe('an order whose bench has died', () => {
  it('goes on at another bench in its exact step when that one scans it twice, and is packed once', async () => {
    const { store, clock, one, two } = await twoBenches();
    await take(one, 'T0');
    await onTo(one, 'fill');
    const stood = one.state;
    clock.at += LEASE_MS + 1;
    await take(two, 'T0');
    expect(two.state).toMatchObject({ step: { at: 'idle' }, notice: { code: 'bench-silent' } });
    expect(two.state.notice?.values).toEqual({ order: 'T0', bench: shop.benches[0]?.name });
    await take(two, 'T0');
    expect(two.state).toMatchObject({
      run: stood.run,
      step: stood.step,
      gathered: stood.gathered,
      notice: { code: 'run-taken-over' },
    });
    expect(two.state.parcels).toHaveLength(stood.parcels.length);
    await one.settled();
    expect(one.state).toMatchObject({ step: { at: 'idle' }, order: null, notice: { code: 'run-given-over' } });
    await finish(two, clock.at, '92001');
    const parcels = await store.selectFrom('parcel').select(['order_id', 'run']).execute();
    expect(parcels).toEqual(stood.parcels.map(() => ({ order_id: 'T0', run: stood.run })));
    expect((await findOrder(store, 'T0'))?.state).toBe('packed');
    // Restarted, both benches stand where they stood, and no parcel was stored twice.
    expect((await loadBench(store, shop.benches[0]?.id ?? '')).state.notice?.code).toBe('run-given-over');
    const planned = await store.selectFrom('planned_parcel').select('id').execute();
    expect(planned).toHaveLength(stood.parcels.length);
  });

  it('is nobody’s to take while its bench is heard of, by its inputs or its heartbeat', async () => {
    const { clock, one, two } = await twoBenches();
    await take(one, 'T0');
    for (const sign of [() => give(one, 'next'), () => one.beat(), () => give(one, 'repeat')]) {
      clock.at += LEASE_MS - 1;
      await sign();
      await scanTwice(two, 'T0');
      expect(two.state).toMatchObject({
        step: { at: 'idle' },
        notice: { code: 'order-taken-elsewhere', values: { bench: 'Bench 1' } },
      });
    }
    expect(one.state.order?.id).toBe('T0');
  });

  it('is offered anew when the second scan comes too late, or from another order', async () => {
    const { clock, one, two } = await twoBenches();
    await take(one, 'T0');
    clock.at += LEASE_MS + 1;
    await take(two, 'T0');
    clock.at += 61_000;
    await take(two, 'T0');
    expect(two.state.notice?.code).toBe('bench-silent');
    expect(two.state.step.at).toBe('idle');
    // Its bench is back after all.
    await one.beat();
    await take(two, 'T0');
    expect(two.state.notice?.code).toBe('order-taken-elsewhere');
  });

  it('is not given to the old bench’s late inputs: they are refused with a word, and take nothing else', async () => {
    const { store, clock, one, two } = await twoBenches({ told: false });
    await take(one, 'T0');
    await onTo(one, 'look-over');
    clock.at += LEASE_MS + 1;
    await scanTwice(two, 'T0');
    const { seq } = two;
    const late = await one.apply({ type: 'command', command: 'next', by: 'touch' }, 'a-late-input-1', 'T0');
    expect(late.accepted).toBe(false);
    expect(one.state).toMatchObject({ step: { at: 'idle' }, notice: { code: 'run-given-over' } });
    // What the tablet had kept beside it is for the same order: it does not take the next one.
    const later = await one.apply({ type: 'command', command: 'next', by: 'touch' }, 'a-late-input-2', 'T0');
    expect(later.accepted).toBe(false);
    expect(one.state.order).toBeNull();
    expect(two.seq).toBe(seq);
    const ids = await store.selectFrom('input').select('id').where('id', 'like', 'a-late-input-%').execute();
    expect(ids).toEqual([]);
    await give(one, 'next');
    expect(one.state.order?.id).toBe('T1');
  });

  it('with a clock that was set back is still taken over: a lease farther away than any is none', async () => {
    const { clock, one, two } = await twoBenches();
    await take(one, 'T0');
    clock.at -= 24 * 3_600_000;
    await scanTwice(two, 'T0');
    expect(two.state.order?.id).toBe('T0');
  });
});

/** One step that a bench of the model does to the only order. */
type Step = 'claim' | 'beat' | 'ask' | 'pack' | 'release';

it('whatever interleaving of claims, heartbeats, take-overs and ends: never two benches, and one that packs', async () => {
  const steps = fc.array(
    fc.tuple(fc.integer({ min: 0, max: 3 }), fc.constantFrom<Step>('claim', 'beat', 'ask', 'pack', 'release')),
    { minLength: 4, maxLength: 14 },
  );
  const store = await storeWith(1);
  let rounds = 0;
  await fc.assert(
    fc.asyncProperty(fc.scheduler(), steps, async (scheduler, doings) => {
      rounds += 1;
      let now = NOON;
      const held = new Map<number, string>();
      const packed: string[] = [];
      await closeOrder(store, { order: 'T0', state: 'open', reason: null, now });
      const doOne = async (bench: number, step: Step) => {
        const name = `bench-${String(bench)}`;
        const run = held.get(bench);
        await store.transaction().execute(async (transaction) => {
          if (step === 'claim' && run === undefined) {
            const id = `run-${String(rounds)}-${String(bench)}-${String(now)}`;
            const won = await claimOrder(transaction, { order: 'T0', bench: name, run: id, now });
            if (won) held.set(bench, id);
          }
          if (step === 'ask' && run === undefined) {
            now += LEASE_MS + 1;
            const there = await findOrder(transaction, 'T0');
            if (there?.state !== 'packing' || there.bench === name) return;
            const asked = { order: 'T0', from: there.bench ?? '', run: there.run ?? '', to: name, now };
            await takeOverClaim(transaction, asked);
            if ((await takeOverClaim(transaction, asked)) === 'taken') held.set(bench, asked.run);
          }
          if (run === undefined || (step !== 'beat' && step !== 'pack' && step !== 'release')) return;
          // Whoever holds an order asks first whether it still does: the others may have taken it over.
          if (!(await holdClaim(transaction, { order: 'T0', bench: name, run }, now))) {
            held.delete(bench);
            return;
          }
          if (step === 'beat') return;
          held.delete(bench);
          if (step === 'pack') packed.push(run);
          const state = step === 'pack' ? 'packed' : 'open';
          await closeOrder(transaction, { order: 'T0', state, reason: null, now });
        });
      };
      const queues = new Map<number, Promise<void>>();
      for (const [bench, step] of doings) {
        const scheduled = scheduler.schedule(Promise.resolve(), `${step} at ${String(bench)}`);
        queues.set(
          bench,
          (queues.get(bench) ?? Promise.resolve()).then(() => scheduled).then(() => doOne(bench, step)),
        );
      }
      await scheduler.waitFor(Promise.all(queues.values()));
      expect(packed.length).toBeLessThanOrEqual(1);
      const leases = await store.selectFrom('claim_lease').selectAll().execute();
      const order = await findOrder(store, 'T0');
      expect(leases).toHaveLength(order?.state === 'packing' ? 1 : 0);
      for (const lease of leases) expect(lease).toMatchObject({ bench: order?.bench, run: order?.run });
      if (packed.length === 1) expect(order?.state).toBe('packed');
    }),
    { numRuns: 60 },
  );
});
