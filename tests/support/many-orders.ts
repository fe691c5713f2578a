import { saveOrder } from '#server/store/orders.ts';
import { openTestStore } from '#tests/support/test-store.ts';

/** Fills a data folder with open orders due in the days around `now`; their pieces are nowhere, since nobody packs them. */
export async function manyOrders(folder: string, count: number, now: number): Promise<void> {
  const store = await openTestStore(folder);
  const day = 24 * 3_600_000;
  await store.transaction().execute(async (transaction) => {
    for (let index = 0; index < count; index++) {
      const shipBy = new Date(Math.floor(now / day) * day + day * (1 + (index % 5)) - 3_600_000).toISOString();
      const order = {
        id: `M${String(10_000 + index)}`,
        pieces: [{ sku: `NOWHERE-${String(index)}`, count: 1 + (index % 3) }],
        buyer: `Buyer ${String(index)}`,
        address: ['1 Any Street'],
        to: { postcode: '55802', country: 'US' },
        shipBy,
      };
      await saveOrder(transaction, order, now);
    }
  });
  await store.destroy();
}
