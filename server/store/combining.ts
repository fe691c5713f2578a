import type { StoreOrTransaction } from './open.ts';
import { saveOrder } from './orders.ts';
import type { Order } from '#shared/planning/types.ts';

/** The order that one became a part of; null where it stands by itself. */
export async function combinationOf(store: StoreOrTransaction, member: string): Promise<string | null> {
  const row = await store
    .selectFrom('combined_order')
    .select('combination')
    .where('member', '=', member)
    .executeTakeFirst();
  return row?.combination ?? null;
}

/** Stores the one order that others become; those wait no more by themselves. */
export async function saveCombination(store: StoreOrTransaction, order: Order, now: number): Promise<void> {
  const members = order.combines ?? [];
  await saveOrder(store, order, now);
  await store
    .updateTable('shop_order')
    .set({
      came_at: (query) =>
        query
          .selectFrom('shop_order as one')
          .select((select) => select.fn.min<number | null>('one.came_at').as('came'))
          .where('one.id', 'in', members),
    })
    .where('id', '=', order.id)
    .execute();
  for (const member of members) {
    await store.insertInto('combined_order').values({ member, combination: order.id }).execute();
  }
  await store
    .updateTable('shop_order')
    .set({ state: 'combined', reason: order.id, changed_at: now })
    .where('id', 'in', members)
    .execute();
}

/** Each of its orders waits by itself again. */
export async function partCombination(store: StoreOrTransaction, id: string, now: number): Promise<void> {
  await store
    .updateTable('shop_order')
    .set({ state: 'open', reason: null, changed_at: now })
    .where('id', 'in', (query) => query.selectFrom('combined_order').select('member').where('combination', '=', id))
    .where('state', '=', 'combined')
    .execute();
  await store.deleteFrom('combined_order').where('combination', '=', id).execute();
  await store.deleteFrom('order_piece').where('order_id', '=', id).execute();
  await store.deleteFrom('shop_order').where('id', '=', id).execute();
}

const groupOf = (orders: readonly string[]): string => JSON.stringify([...orders].sort());

export async function declineCombining(
  store: StoreOrTransaction,
  orders: readonly string[],
  now: number,
): Promise<void> {
  await store
    .insertInto('combining_declined')
    .values({ orders: groupOf(orders), at: now })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
}

export async function isDeclined(store: StoreOrTransaction, orders: readonly string[]): Promise<boolean> {
  const row = await store
    .selectFrom('combining_declined')
    .select('at')
    .where('orders', '=', groupOf(orders))
    .executeTakeFirst();
  return row !== undefined;
}
