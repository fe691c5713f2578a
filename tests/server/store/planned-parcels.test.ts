import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { seedDemo } from '#server/office/demo.ts';
import { PlanDesk } from '#server/planning/plan-job.ts';
import { plannedFrom, portablePlanned } from '#server/planning/portable-plan.ts';
import { planJob } from '#server/runs/plan-for.ts';
import type { Store } from '#server/store/open.ts';
import { openOrders, saveOrder } from '#server/store/orders.ts';
import { NOTHING_KEPT } from '#server/store/planned-parcels.ts';
import { loadPractice, savePractice } from '#server/store/practice.ts';
import { containersPlannedElsewhere, loadBench } from '#server/store/runs.ts';
import type { Order } from '#shared/planning/types.ts';
import { practise, type PracticeInput } from '#shared/practice/practise.ts';
import { NO_PRACTICE, type PracticeState } from '#shared/practice/types.ts';
import { benchRun, give, onTo, take } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore, refuseUpdates } from '#tests/support/test-store.ts';

const shop = loadShop('config');
const clock = { now: () => Date.parse('2026-11-25T15:00:00Z') };
const BENCH = shop.benches[0]?.id ?? '';
const data = temporaryFolder('planned-parcels');
let store: Store;
let order: Order;

beforeAll(async () => {
  store = await openTestStore(data.path);
  await seedDemo('config', shop, store, clock);
  const waiting = (await openOrders(store, 20)).map((each) => each.order);
  const pieces = waiting.flatMap((each) => each.pieces).slice(0, 5);
  order = { ...waiting[0]!, id: 'MANY', pieces };
  await saveOrder(store, order, clock.now());
});

afterAll(async () => {
  await store.destroy();
  data.remove();
});

const practiceFacts = { unit: { mass: 'oz', places: 1 }, skills: [], supervisors: [], ready: [] } as const;
const stored = (id: string, input: PracticeInput) => ({ id, input, at: 0 });
const rows = () => store.selectFrom('planned_parcel').select('id').execute();
const body = async () => (await store.selectFrom('bench_state').select('body').executeTakeFirstOrThrow()).body;

describe('planned parcels', () => {
  it('are stored once, however many inputs follow, and come back as they were', async () => {
    const run = benchRun({ store, shop, clock });
    await run.load();
    await take(run, 'MANY');
    await onTo(run, 'fill');
    expect(run.state.parcels.length).toBeGreaterThan(0);
    expect(await rows()).toHaveLength(run.state.parcels.length);
    const whole = JSON.stringify(run.state).length;
    expect((await body()).length).toBeLessThan(whole / 10);
    const inputs = await store.selectFrom('input').select('body').execute();
    for (const input of inputs) expect(input.body.length).toBeLessThan(whole / 4);
    const again = await loadBench(store, BENCH);
    expect(again.state).toEqual(JSON.parse(JSON.stringify(run.state)));
    const ids = run.state.parcels.map(({ container }) => container.id);
    expect(await containersPlannedElsewhere(store, 'another')).toEqual(ids);
    expect(await containersPlannedElsewhere(store, BENCH)).toEqual([]);
  });

  it('what is planned anew and cannot be stored leaves the run with the parcels that it had', async () => {
    const run = benchRun({ store, shop, clock });
    await run.load();
    const before = run.state;
    const stored = (await rows()).length;
    const allow = await refuseUpdates(store, `(select count(*) from planned_parcel) > ${String(stored)}`);
    await expect(give(run, 'too-tight')).rejects.toThrow('the disk is full');
    await allow();
    expect(run.state.parcels).toBe(before.parcels);
    expect(await rows()).toHaveLength(stored);
    await give(run, 'repeat');
    expect((await loadBench(store, BENCH)).state).toEqual(JSON.parse(JSON.stringify(run.state)));
    await give(run, 'too-tight');
    expect(run.state.parcels[0]?.container.id).not.toBe(before.parcels[0]?.container.id);
    expect((await loadBench(store, BENCH)).state).toEqual(JSON.parse(JSON.stringify(run.state)));
  });

  it('of an older version, held in full by the state, are read, and stored once from the next input on', async () => {
    const { state, seq } = await loadBench(store, BENCH);
    const old = JSON.stringify(state);
    await store.updateTable('bench_state').set({ body: old, seq }).execute();
    expect(await containersPlannedElsewhere(store, 'another')).toEqual(
      state.parcels.slice(state.parcel).map(({ container }) => container.id),
    );
    const run = benchRun({ store, shop, clock });
    await run.load();
    expect(run.state).toEqual(state);
    const stored = (await rows()).length;
    await give(run, 'repeat');
    await give(run, 'repeat');
    expect(await rows()).toHaveLength(stored + state.parcels.length);
    expect((await body()).length).toBeLessThan(old.length / 10);
    expect((await loadBench(store, BENCH)).state.parcels).toEqual(state.parcels);
  });

  it('that are not in the store any more are missed by name', async () => {
    const { parcels } = JSON.parse(await body()) as { parcels: { kept: number }[] };
    const kept = parcels[0]?.kept ?? 0;
    await store.deleteFrom('planned_parcel').where('id', '=', kept).execute();
    await expect(loadBench(store, BENCH)).rejects.toThrow(`expected planned parcel ${String(kept)} in the store`);
  });
});

it('practice stores the parcels of its invented order once, and comes back as it was', async () => {
  const job = await planJob(store, shop, order, clock.now(), { bench: BENCH });
  const planned = new PlanDesk(shop).plan(job);
  if (!planned.ok) throw new Error(planned.why);
  const facts = { ...practiceFacts, run: benchRun({ store, shop, clock }).facts() };
  const preparing: PracticeState = { ...NO_PRACTICE, screen: { at: 'preparing', skill: 's', exercise: 'guided' } };
  const begin: PracticeInput = { type: 'order', order, plan: planned.plan };
  const begun = practise(preparing, begin, facts).state;
  expect(begun.screen.at).toBe('guided');
  const before = (await rows()).length;
  const kept = await savePractice(store, BENCH, { seq: 1, state: begun, kept: NOTHING_KEPT }, stored('one', begin));
  const repeat: PracticeInput = { type: 'command', command: 'repeat', by: 'touch' };
  const then = practise(begun, repeat, facts).state;
  await savePractice(store, BENCH, { seq: 2, state: then, kept }, stored('two', repeat));
  expect(await rows()).toHaveLength(before + planned.plan.parcels.length);
  const again = await loadPractice(store, BENCH);
  expect(again).toMatchObject({ seq: 2, state: JSON.parse(JSON.stringify(then)) as object });
  expect(again.kept.size).toBe(planned.plan.parcels.length);
});

it('a plan comes through another thread as it was', async () => {
  const job = await planJob(store, shop, order, clock.now(), { bench: BENCH });
  const planned = new PlanDesk(shop).plan(job);
  if (!planned.ok) throw new Error(planned.why);
  const text = portablePlanned(planned);
  expect(plannedFrom(structuredClone(text))).toEqual(JSON.parse(JSON.stringify(planned)));
  const refused = new PlanDesk(shop).plan({ ...job, pieces: [] });
  expect(refused).toMatchObject({ ok: false, code: 'unknown-piece' });
  expect(plannedFrom(structuredClone(portablePlanned(refused)))).toEqual(refused);
});
