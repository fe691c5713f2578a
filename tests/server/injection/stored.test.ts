import { afterAll, beforeAll, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { takeIn } from '#server/office/intake/take-in.ts';
import { find } from '#server/office/search/find.ts';
import { orderPage } from '#server/office/search/order-page.ts';
import type { Store } from '#server/store/open.ts';
import { allOrders, findOrder } from '#server/store/orders.ts';
import { hostileConfig, seedHostile } from '#tests/support/hostile-shop.ts';
import { HOSTILE_TEXTS } from '#tests/support/hostile-texts.ts';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const data = temporaryFolder('hostile-stored');
const shop = loadShop(hostileConfig());
const clock = { now: () => Date.parse('2026-11-25T15:00:00Z') };
let store: Store;

beforeAll(async () => {
  store = await openTestStore(data.path);
});
afterAll(async () => {
  await store.destroy();
  data.remove();
  removeConfigFolders();
});

it('another system’s hostile records are stored as texts, or refused by field; none breaks the store', async () => {
  const parts = { store, shop, clock };
  const outcomes: string[] = [];
  for (const [index, { name, text }] of HOSTILE_TEXTS.entries()) {
    const sku = `ZQ-${String(index)}`;
    const pieces = await takeIn(parts, 'pieces', [{ sku, kind: 't-shirt', title: text, place: text }]);
    if (!pieces.ok) await takeIn(parts, 'pieces', [{ sku, kind: 't-shirt', title: 'a shirt' }]);
    const order = { order: `Z-${String(index)}`, skus: [sku], buyer: text, street: text, city: text, note: text };
    const taken = await takeIn(parts, 'orders', [{ ...order, postcode: '55802', country: 'US', shipBy: '2027-01-05' }]);
    outcomes.push(taken.ok ? 'stored' : 'refused');
    const stored = await findOrder(store, order.order);
    expect({ name, there: stored !== null }).toEqual({ name, there: taken.ok });
    if (stored !== null)
      expect({ name, held: stored.order.buyer }).toEqual({
        name,
        held: expect.not.stringMatching(/\p{Cc}/u) as string,
      });
    await takeIn(parts, 'orders', [
      { ...order, order: text, skus: [text], postcode: text, country: text, shipBy: text },
    ]);
    expect((await find(store, text)).groups.length).toBeGreaterThanOrEqual(0);
  }
  expect(outcomes.filter((each) => each === 'stored').length).toBeGreaterThan(30);
});

it('what was stored past all rules is found, listed and read again', async () => {
  const before = (await allOrders(store)).length;
  const ids = await seedHostile(store, clock.now());
  expect((await allOrders(store)).length - before).toBe(ids.length);
  for (const id of ids) expect(await findOrder(store, id)).not.toBeNull();
  const { groups } = await find(store, 'zqmark');
  expect(groups.map(({ kind }) => kind)).toContain('order');
  const page = await orderPage(store, shop, {
    by: 'buyer',
    descending: false,
    state: null,
    from: 0,
    count: 200,
    text: '',
  });
  expect(page.rows.length).toBeGreaterThan(ids.length);
});
