import { afterEach, beforeEach, expect, it } from 'vitest';
import { leaveOut } from '#server/office/partial/leave-out.ts';
import { newestChanges } from '#server/store/changes.ts';
import type { PlanJob } from '#server/planning/plan-job.ts';
import { plannerHere, type Planner } from '#server/planning/planner.ts';
import { openStore, type Store } from '#server/store/open.ts';
import { findOrder, saveOrders } from '#server/store/orders.ts';
import { savePieces } from '#server/store/pieces.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import { demoPieces } from '#tests/benchmarks/demo-orders.ts';
import { benchRun, finish, give, take } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const NOON = Date.UTC(2026, 10, 25, 18);
const { shop, pieces } = await demoPieces();
const [A, B, C] = pieces;
let data: ReturnType<typeof temporaryFolder>;
let store: Store;
const clock = { at: NOON, now: () => (clock.at += 1000) };

beforeEach(async () => {
  data = temporaryFolder('go-without');
  store = await openStore(data.path);
  await savePieces(store, pieces.slice(0, 3));
  const order = {
    id: 'W1',
    pieces: [A, B, C].map((piece) => ({ sku: piece?.sku ?? '', count: 1 })),
    buyer: 'A Buyer',
    address: ['1 Any Street', 'Duluth MN 55802'],
    to: { postcode: '55802', country: 'US' },
    shipBy: '2026-11-26T16:00:00Z',
  };
  await saveOrders(store, [order], NOON);
});
afterEach(async () => {
  await store.destroy();
  data.remove();
});

const atGather = async (planner?: Pick<Planner, 'plan'>) => {
  const run = benchRun({ store, shop, clock, ...(planner === undefined ? {} : { planner }) });
  await run.load();
  await run.apply({ type: 'scan', meaning: { means: 'staff', text: 'b', staff: shop.staff[0]?.id ?? '' }, by: 'scan' });
  await take(run, 'W1');
  expect(run.state.step.at).toBe('gather');
  return run;
};
const sure = async (run: Awaited<ReturnType<typeof atGather>>) => {
  await give(run, 'go-without');
  expect(run.state.confirming?.command).toBe('go-without');
  await run.apply({ type: 'command', command: 'confirm', by: 'voice' });
};
const skusOf = async (id: string) => (await findOrder(store, id))?.order.pieces.map(({ sku }) => sku);

it('an order at a bench goes on without the piece that is not on its shelf, which follows; slip and office say so', async () => {
  const run = await atGather();
  await give(run, 'next');
  await sure(run);
  expect(run.state.notice).toMatchObject({ code: 'goes-without', values: { title: B?.title, order: 'W1-2' } });
  expect(run.state.order?.pieces.map(({ sku }) => sku)).toEqual([A?.sku, C?.sku]);
  expect(run.state.parcels.flatMap((parcel) => parcel.pieces.map(({ piece }) => piece.sku)).sort()).toEqual(
    [A?.sku, C?.sku].sort(),
  );
  expect(await findOrder(store, 'W1')).toMatchObject({ state: 'packing', bench: shop.benches[0]?.id });
  expect([await skusOf('W1'), await skusOf('W1-2')]).toEqual([[A?.sku, C?.sku], [B?.sku]]);
  expect(await findOrder(store, 'W1-2')).toMatchObject({ state: 'set-aside', reason: 'missing' });
  expect(await newestChanges(store, null)).toMatchObject([
    { what: 'order-sent-in-part', about: 'W1', who: shop.staff[0]?.id, from: 'bench', details: { follows: 'W1-2' } },
  ]);

  // The last one can follow, too, but something must be sent.
  await sure(run);
  expect(run.state.step.at).toBe('look-over');
  expect(await skusOf('W1')).toEqual([A?.sku]);
  await finish(run, clock.now(), '9200190233333333333');
  expect(await findOrder(store, 'W1')).toMatchObject({ state: 'packed' });
  const { bytes } = await store.selectFrom('print_job').select('bytes').executeTakeFirstOrThrow();
  const slip = Buffer.from(bytes).toString('latin1').replace(/\s+/g, ' ');
  expect(slip).toContain(`(order W1-2)`);
  expect(slip).toContain(B?.sku ?? '');
});

it('divided before planning broke down, it is divided once; nothing is offered where nothing would be left', async () => {
  let broken = false;
  const whole = plannerHere(shop);
  const planner = { plan: (job: PlanJob) => (broken ? Promise.reject(new Error('no thread')) : whole.plan(job)) };
  const run = await atGather(planner);
  expect(commandsFor(run.state)).toContain('go-without');
  broken = true;
  await expect(sure(run)).rejects.toThrow('no thread');
  expect(await skusOf('W1')).toEqual([B?.sku, C?.sku]);
  expect(run.state).toMatchObject({ step: { at: 'gather' }, confirming: null });
  expect(run.state.order?.pieces).toHaveLength(3);
  broken = false;
  await sure(run);
  expect(run.state.order?.pieces.map(({ sku }) => sku)).toEqual([B?.sku, C?.sku]);
  expect([await skusOf('W1-2'), await findOrder(store, 'W1-3')]).toEqual([[A?.sku], null]);

  await sure(run);
  expect(await skusOf('W1')).toEqual([C?.sku]);
  expect(commandsFor(run.state)).not.toContain('go-without');
  // The office cannot divide what a bench has in hand.
  const office = { order: 'W1', skus: [C?.sku ?? ''], follow: true, by: null };
  expect(await leaveOut(store, office, clock.now(), () => Promise.resolve())).toEqual({ done: false, why: 'in-hand' });
});
