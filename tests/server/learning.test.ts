import { afterEach, beforeEach, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { seedDemo } from '#server/office/demo.ts';
import { learnedView } from '#server/learning/learned-view.ts';
import { PlannerThread, plannerHere, type Planner } from '#server/planning/planner.ts';
import type { BenchRun } from '#server/runs/bench-run.ts';
import { allBeliefs, forgetKind } from '#server/store/learning.ts';
import type { Store } from '#server/store/open.ts';
import { claimOrder, findOrder, openOrders, releaseUnbegun } from '#server/store/orders.ts';
import { learn, predictedMass, priorBelief } from '#shared/garments/learning.ts';
import { massScale } from '#shared/garments/mass.ts';
import { parcelHere } from '#shared/run/here.ts';
import { addMass, massFromGrams, subtractMass, toGrams } from '#shared/units/mass.ts';
import { benchRun, give } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const shop = loadShop('config');
const clock = { now: () => Date.parse('2026-11-25T15:00:00Z') };
let store: Store;
let data: ReturnType<typeof temporaryFolder>;

beforeEach(async () => {
  data = temporaryFolder('learning');
  store = await openTestStore(data.path);
  await seedDemo('config', shop, store, clock);
});

afterEach(async () => {
  await store.destroy();
  data.remove();
});

const runWith = (planner: Pick<Planner, 'plan'>, bench = 0): BenchRun =>
  benchRun({ store, shop, clock, planner, bench });

/** Presses on until a step is reached. */
async function onTo(run: BenchRun, step: string): Promise<void> {
  for (let guard = 0; run.state.step.at !== step; guard++) {
    if (guard > 100) throw new Error(`never came to ${step}, stands at ${run.state.step.at}`);
    await give(run, 'next');
  }
}

/** An open order of one piece. */
async function singleOrder(): Promise<string> {
  const all = await openOrders(store, 100);
  const found = all.find(({ order }) => order.pieces.length === 1 && order.service === undefined);
  if (found === undefined) throw new Error('the demo has no such order');
  return found.order.id;
}

/** Weighs the parcel with its one piece at so many grams, and finishes it. */
async function finishWith(run: BenchRun, grams: (expected: number) => number): Promise<number> {
  await onTo(run, 'weigh');
  const parcel = parcelHere(run.state);
  const [piece] = parcel?.pieces ?? [];
  if (parcel === undefined || piece === undefined) throw new Error('there is no parcel');
  const real = grams(piece.mass.mean);
  const mass = addMass(massFromGrams(real), parcel.container.mass, parcel.wrap.massPerPiece);
  await run.apply({
    type: 'reading',
    reading: {
      mass,
      unit: 'g',
      places: 0,
      division: massFromGrams(1),
      stability: 'still',
      net: false,
      condition: 'ok',
      at: clock.now(),
    },
  });
  if (run.state.step.at === 'decide' && run.state.step.because === 'mismatch') {
    await give(run, 'next');
    await give(run, 'confirm');
  }
  if (run.state.step.at === 'decide') {
    await give(run, 'pay-next-bracket');
    await run.apply({ type: 'command', command: 'confirm', by: 'voice' });
  }
  await onTo(run, 'label');
  await give(run, 'next');
  await run.apply({ type: 'command', command: 'confirm', by: 'voice' });
  expect(run.state.step.at).toBe('done');
  return toGrams(subtractMass(mass, parcel.container.mass)) - toGrams(parcel.wrap.massPerPiece);
}

it('learns the mass of a kind from a finished parcel, as the closed form has it, and plans with it', async () => {
  const run = runWith(plannerHere(shop));
  const id = await singleOrder();
  await run.apply({ type: 'scan', meaning: { means: 'order', text: 'code', order: id }, by: 'scan' });
  const piece = parcelHere(run.state)?.pieces[0]?.piece;
  const kind = shop.wardrobe.kinds.get(piece?.kind ?? '');
  if (piece === undefined || kind === undefined) throw new Error('there is no piece');
  const weighed = await finishWith(run, (expected) => expected * 1.05);
  const [belief] = await allBeliefs(store);
  const expected = learn(priorBelief(kind.mass), weighed / massScale(piece, shop.wardrobe));
  expect(belief?.kind).toBe(kind.id);
  expect(belief?.mass?.mean).toBeCloseTo(expected.mean, 9);
  expect(belief?.mass?.variance).toBeCloseTo(expected.variance, 9);
  expect(belief?.factor).toMatchObject({ closed: 1, tooTight: 0 });

  const row = (await learnedView(store, shop)).rows.find((each) => each.kind === kind.id);
  expect(row?.mass).toMatchObject({ prior: kind.mass, parcels: 1, now: predictedMass(expected) });

  const stored = await findOrder(store, id);
  if (stored === null) throw new Error('the order is gone');
  const job = {
    order: { ...stored.order, pieces: [{ sku: 'NEW', count: 1 }] },
    pieces: [{ sku: 'NEW', title: 'another', kind: kind.id }],
    day: '2026-11-25',
    without: [],
  };
  const planner = plannerHere(shop);
  const mean = async (beliefs: Awaited<ReturnType<typeof allBeliefs>>) => {
    const planned = await planner.plan({ ...job, beliefs });
    return planned.ok ? planned.plan.parcels[0]?.pieces[0]?.mass.mean : null;
  };
  expect(await mean([])).toBeCloseTo(kind.mass.mean, 9);
  expect(await mean(await allBeliefs(store))).toBeCloseTo(expected.mean, 9);

  await forgetKind(store, kind.id);
  expect(await allBeliefs(store)).toEqual([]);
});

it('shows a weighing that is far off with its order, and does not learn it', async () => {
  const run = runWith(plannerHere(shop));
  const id = await singleOrder();
  await run.apply({ type: 'scan', meaning: { means: 'order', text: 'code', order: id }, by: 'scan' });
  const kind = parcelHere(run.state)?.pieces[0]?.piece.kind;
  const far = shop.wardrobe.kinds.get(kind ?? '')?.mass.sd ?? 0;
  await finishWith(run, (expected) => expected + 25 * far);
  const row = (await learnedView(store, shop)).rows.find((each) => each.kind === kind);
  expect(row?.mass.parcels).toBe(0);
  expect(row?.outliers).toMatchObject([{ about: 'mass', order: id }]);
});

it('learns from too tight in the same step that brings the next plan', async () => {
  const run = runWith(plannerHere(shop));
  await run.apply({ type: 'scan', meaning: { means: 'order', text: 'code', order: await singleOrder() }, by: 'scan' });
  await onTo(run, 'fill');
  const kind = parcelHere(run.state)?.pieces[0]?.piece.kind;
  const before = parcelHere(run.state)?.container.id;
  await give(run, 'too-tight');
  expect(parcelHere(run.state)?.container.id).not.toBe(before);
  const row = (await learnedView(store, shop)).rows.find((each) => each.kind === kind);
  const lessons =
    (row?.thickness.tooTight ?? 0) + (row?.outliers.filter((each) => each.about === 'closing').length ?? 0);
  expect(lessons).toBe(1);
});

it('opens an order again that was claimed when the server stopped before its run began', async () => {
  const id = await singleOrder();
  expect(await claimOrder(store, { order: id, bench: 'bench-1', run: 'never-began', now: 1 })).toBe(true);
  expect((await findOrder(store, id))?.state).toBe('packing');
  expect(await releaseUnbegun(store, 2)).toEqual([id]);
  expect((await findOrder(store, id))?.state).toBe('open');
});

it('leaves an order alone whose run began', async () => {
  const run = runWith(plannerHere(shop));
  const id = await singleOrder();
  await run.apply({ type: 'scan', meaning: { means: 'order', text: 'code', order: id }, by: 'scan' });
  expect(await releaseUnbegun(store, 2)).toEqual([]);
  expect((await findOrder(store, id))?.state).toBe('packing');
});

it('gives a claimed order back when planning breaks down, and the bench can go on', async () => {
  let breaks = true;
  const planner = plannerHere(shop);
  const run = runWith({ plan: (job) => (breaks ? Promise.reject(new Error('broken')) : planner.plan(job)) });
  const id = await singleOrder();
  const scan = { type: 'scan', meaning: { means: 'order', text: 'code', order: id }, by: 'scan' } as const;
  await expect(run.apply(scan)).rejects.toThrow('broken');
  expect((await findOrder(store, id))?.state).toBe('open');
  expect(run.state.step.at).toBe('idle');
  breaks = false;
  await run.apply(scan);
  expect(run.state.order?.id).toBe(id);
});

it('plans again at the start when the server stopped between too tight and the next plan', async () => {
  let breaks = false;
  const planner = plannerHere(shop);
  const run = runWith({ plan: (job) => (breaks ? Promise.reject(new Error('stopped')) : planner.plan(job)) });
  await run.apply({ type: 'scan', meaning: { means: 'order', text: 'code', order: await singleOrder() }, by: 'scan' });
  await onTo(run, 'fill');
  const before = parcelHere(run.state)?.container.id;
  breaks = true;
  await expect(give(run, 'too-tight')).rejects.toThrow('stopped');
  const again = runWith(planner);
  await again.load();
  expect(parcelHere(again.state)?.container.id).not.toBe(before);
});

it('a thread plans for several benches, and two benches never take the same order', async () => {
  const thread = new PlannerThread(() => shop);
  const runs = [runWith(thread, 0), runWith(thread, 1)];
  await Promise.all(runs.map((run) => give(run, 'next')));
  const [first, second] = runs.map((run) => run.state.order?.id);
  expect(first).toBeDefined();
  expect(second).not.toBe(first);
  await thread.stop();
});
