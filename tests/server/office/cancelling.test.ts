import { afterEach, beforeEach, expect, it } from 'vitest';
import { cancelOrder, reopenOrder } from '#server/office/cancel-order.ts';
import { combineOrders } from '#server/office/combining/combine.ts';
import type { Store } from '#server/store/open.ts';
import { claimOrder, closeOrder, findOrder, saveOrder } from '#server/store/orders.ts';
import type { Order } from '#shared/planning/types.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

let data: ReturnType<typeof temporaryFolder>;
let store: Store;

const order = (id: string, sku: string): Order => ({
  id,
  pieces: [{ sku, count: 1 }],
  buyer: 'Di Dot',
  address: ['5 Rose Lane', 'Duluth MN 55802'],
  to: { postcode: '55802', country: 'US' },
  shipBy: '2027-01-05T22:30:00.000Z',
});

beforeEach(async () => {
  data = temporaryFolder('cancelling');
  store = await openTestStore(data.path);
  await saveOrder(store, order('1', 'A'), 0);
  await saveOrder(store, order('2', 'B'), 0);
});

afterEach(async () => {
  await store.destroy();
  data.remove();
});

const stateOf = async (id: string) => (await findOrder(store, id))?.state;
const claim = () => claimOrder(store, { order: '1', bench: 'bench-1', run: 'run-1', now: 1 });

it('a cancelled order is taken by no bench, and waits again when that is taken back', async () => {
  expect(await cancelOrder(store, '1', 1)).toBe('done');
  expect(await stateOf('1')).toBe('cancelled');
  expect(await claim()).toBe(false);
  expect(await cancelOrder(store, '1', 2)).toBe('not-waiting');
  expect(await reopenOrder(store, '1', 3)).toBe('done');
  expect(await reopenOrder(store, '1', 4)).toBe('not-cancelled');
  expect(await claim()).toBe(true);
});

it('is refused while a bench has the order in hand, when it is packed, and for what was made one', async () => {
  expect(await cancelOrder(store, 'none', 1)).toBe('unknown-order');
  await claim();
  expect(await cancelOrder(store, '1', 1)).toBe('in-hand');
  await closeOrder(store, { order: '1', state: 'packed', reason: null, now: 2 });
  expect(await cancelOrder(store, '1', 3)).toBe('not-waiting');
  await saveOrder(store, order('3', 'C'), 0);
  expect(await combineOrders(store, ['2', '3'], 4)).toBe('done');
  expect(await cancelOrder(store, '2+3', 5)).toBe('combined');
  expect(await cancelOrder(store, '2', 5)).toBe('not-waiting');
});

it('does not wait again once a piece is in another order', async () => {
  await cancelOrder(store, '1', 1);
  await saveOrder(store, order('4', 'A'), 2);
  expect(await reopenOrder(store, '1', 3)).toBe('piece-sold');
  await cancelOrder(store, '4', 4);
  expect(await reopenOrder(store, '1', 5)).toBe('done');
});
