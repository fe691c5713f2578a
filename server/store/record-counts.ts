import type { Store } from './open.ts';

/** How many pieces and orders there are. */
export async function recordCounts(store: Store): Promise<{ readonly pieces: number; readonly orders: number }> {
  const pieces = await store
    .selectFrom('piece')
    .select(({ fn }) => fn.countAll<number | string>().as('count'))
    .executeTakeFirstOrThrow();
  const orders = await store
    .selectFrom('shop_order')
    .select(({ fn }) => fn.countAll<number | string>().as('count'))
    .executeTakeFirstOrThrow();
  return { pieces: Number(pieces.count), orders: Number(orders.count) };
}
