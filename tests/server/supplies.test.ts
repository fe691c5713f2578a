import { randomUUID } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { stockChange } from '#server/office/supplies/stock-entry.ts';
import { seedDemo } from '#server/office/demo.ts';
import { emptyContainers } from '#server/office/supplies/empty-containers.ts';
import { shortSupplies, suppliesView } from '#server/office/supplies/overview.ts';
import { saveOrder, openOrders } from '#server/store/orders.ts';
import type { Store } from '#server/store/open.ts';
import { savePieces } from '#server/store/pieces.ts';
import { changeStock, stockLevels, stockMoves } from '#server/store/stock.ts';
import { parcelHere } from '#shared/run/here.ts';
import { containersIn } from '#shared/supplies/used-by-parcel.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { money } from '#shared/units/money.ts';
import { benchRun, finish, give, onTo, take, upToLabel } from '#tests/support/finish-run.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const shop = loadShop('config');
const metric = loadShop('config/demo-metric');
const clock = { now: () => Date.parse('2026-11-25T15:00:00Z') };
let store: Store;
let data: ReturnType<typeof temporaryFolder>;

beforeEach(async () => {
  data = temporaryFolder('supplies');
  store = await openTestStore(data.path);
  await seedDemo('config', shop, store, clock);
});

afterEach(async () => {
  await store.destroy();
  data.remove();
});

const onHand = async (item: string) => (await stockLevels(store)).get(item)?.onHand ?? null;
const first = async () => (await openOrders(store, 1))[0]?.order.id ?? '';
const count = (item: string, amount: number) =>
  changeStock(store, { item, kind: 'counted', amount, reason: 'counted', who: null, at: clock.now() });

describe('a finished parcel', () => {
  it('takes its container and its label off the shelf, once however often the last scan is delivered', async () => {
    const run = benchRun({ store, shop, clock });
    await take(run, await first());
    const container = parcelHere(run.state)?.container.id ?? '';
    const before = await onHand(container);
    await upToLabel(run, clock.now());
    expect(await onHand(container)).toBe(before);
    const id = randomUUID();
    const scan = {
      type: 'scan',
      meaning: { means: 'label', text: 'A1', number: 'A1', postcode: null },
      by: 'scan',
    } as const;
    await run.apply(scan, id);
    expect(await run.apply(scan, id)).toMatchObject({ repeated: true });
    expect(await onHand(container)).toBe((before ?? 0) - 1);
    expect(await onHand('label')).toBe(639);
    const [move] = await stockMoves(store, container, 1);
    expect(move).toMatchObject({ kind: 'used', amount: -1, after: (before ?? 0) - 1 });
  });

  it('counts down in the transaction that stores it: when that fails, neither is there', async () => {
    const run = benchRun({ store, shop, clock });
    await take(run, await first());
    const container = parcelHere(run.state)?.container.id ?? '';
    await upToLabel(run, clock.now());
    const order = run.state.order?.id ?? '';
    // The same parcel counted already: the store refuses it a second time.
    const parcel = `${order}/${run.state.run ?? ''}/1`;
    await store
      .insertInto('stock_move')
      .values({ item: container, kind: 'used', amount: -1, after: null, parcel, reason: '', who: null, at: 1 })
      .execute();
    const before = await stockLevels(store);
    const scan = {
      type: 'scan',
      meaning: { means: 'label', text: 'A1', number: 'A1', postcode: null },
      by: 'scan',
    } as const;
    await expect(run.apply(scan)).rejects.toThrow(/unique/i);
    expect(await stockLevels(store)).toEqual(before);
    expect(await store.selectFrom('parcel').selectAll().execute()).toEqual([]);
    expect(run.state.step.at).toBe('label');
  });

  it('in a pouch in a pouch takes one of both', async () => {
    const careful: Shop = { ...shop, preferences: { doubleBagAbove: money(100, 'USD') } };
    await savePieces(store, [{ sku: 'DEAR', title: 'a dear shirt', kind: 't-shirt', value: money(20_000, 'USD') }]);
    const [any] = await openOrders(store, 1);
    if (any === undefined) throw new Error('no order');
    const only = new Set(['pouch-10x13', 'pouch-12x15', 'pouch-14x19']);
    const pouches = new Map([...shop.containers].filter(([id]) => only.has(id)));
    const narrow = { ...careful, containers: pouches };
    await saveOrder(store, { ...any.order, id: 'DOUBLE', pieces: [{ sku: 'DEAR', count: 1 }] }, clock.now());
    const run = benchRun({ store, shop: narrow, clock });
    await take(run, 'DOUBLE');
    const both = containersIn(parcelHere(run.state)?.container.id ?? '');
    expect(both).toHaveLength(2);
    const before = await Promise.all(both.map(onHand));
    await finish(run, clock.now(), 'D');
    expect(await Promise.all(both.map(onHand))).toEqual(before.map((each) => (each ?? 0) - 1));
  });

  it('of what was never counted tells the demand and warns of nothing', async () => {
    await store.deleteFrom('stock_level').execute();
    const run = benchRun({ store, shop, clock });
    await take(run, await first());
    await finish(run, clock.now(), 'N');
    expect(await onHand('label')).toBeNull();
    const later = await suppliesView(store, shop, clock.now() + 24 * 3_600_000);
    const label = later.rows.find(({ id }) => id === 'label');
    expect(label).toMatchObject({ state: 'not-counted', onHand: null, toOrder: { packs: 0 } });
    expect(label?.demand.mean).toBeCloseTo((25 * 7 + 1) / 8, 9);
    expect(shortSupplies(later)).toEqual([]);
  });
});

describe('the last one', () => {
  it('is planned by one bench only, and a container at zero is planned by none', async () => {
    const id = await first();
    const run = benchRun({ store, shop, clock });
    await take(run, id);
    const container = parcelHere(run.state)?.container.id ?? '';
    await count(container, 1);
    expect(await emptyContainers(store, shop, 'bench-1')).toEqual([]);
    expect(await emptyContainers(store, shop, 'bench-2')).toEqual([container]);
    const [order] = (await openOrders(store, 1)).map((each) => each.order);
    const stored = (await store.selectFrom('shop_order').select('body').where('id', '=', id).executeTakeFirst())?.body;
    if (order === undefined || stored === undefined) throw new Error('no order');
    await saveOrder(store, { ...(JSON.parse(stored) as typeof order), id: 'SAME' }, clock.now());
    const other = benchRun({ store, shop, clock, bench: 1 });
    await take(other, 'SAME');
    expect(parcelHere(other.state)?.container.id).not.toBe(container);

    await finish(run, clock.now(), 'L');
    expect(await onHand(container)).toBe(0);
    expect(shortSupplies(await suppliesView(store, shop, clock.now()))[0]).toMatchObject({ state: 'out', left: '0' });
    await saveOrder(store, { ...(JSON.parse(stored) as typeof order), id: 'AGAIN' }, clock.now());
    await give(run, 'next').catch(() => undefined);
    if (run.state.order !== null) await give(run, 'back');
    await take(run, 'AGAIN');
    await onTo(run, 'fill');
    expect(parcelHere(run.state)?.container.id).not.toBe(container);
  });
});

describe('the shelf as people say it', () => {
  it('is counted, received, ordered and taken from, and each is remembered with its reason', async () => {
    const at = clock.now();
    const say = (kind: 'counted' | 'received' | 'ordered' | 'taken', amount: number, reason = 'why') =>
      changeStock(store, { item: 'tissue', kind, amount, reason, who: 'maren', at });
    await say('counted', 20);
    await say('ordered', 480);
    expect((await stockLevels(store)).get('tissue')).toEqual({ onHand: 20, onOrder: 480, countedAt: at });
    // What is on its way is not ordered again.
    const tissue = (await suppliesView(store, shop, at)).rows.find(({ id }) => id === 'tissue');
    expect(tissue).toMatchObject({ state: 'low', toOrder: { packs: 0 } });
    await say('received', 500);
    expect((await stockLevels(store)).get('tissue')).toEqual({ onHand: 520, onOrder: 0, countedAt: at });
    await say('taken', 7, 'damp');
    expect(await onHand('tissue')).toBe(513);
    expect((await stockMoves(store, 'tissue', 5)).map(({ kind, amount, after }) => [kind, amount, after])).toEqual([
      ['taken', -7, 513],
      ['received', 500, 520],
      ['ordered', 480, null],
      ['counted', 20, 20],
      ['counted', 310, 310],
    ]);
  });
});

it('an amount is taken as it is typed in the shop’s country, and what is no amount is refused', () => {
  const typed = (amount: string, of = metric) =>
    stockChange(
      of.supplies?.find(({ unit }) => unit === 'length')?.id ?? '',
      {
        kind: 'received',
        amount,
        in: 'unit',
        reason: '',
        who: null,
      },
      of,
      0,
    ).amount;
  expect(typed('2,5')).toBe(typed('2.5'));
  expect(typed('2,5 m', shop)).toBe(typed('2.5', metric));
  for (const amount of ['many', '1,2,5', '']) expect(() => typed(amount)).toThrow('amount: expected');
});
