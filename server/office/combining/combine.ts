import { inTransaction } from '#server/store/in-transaction.ts';
import { partCombination, saveCombination } from '#server/store/combining.ts';
import { foldedAheadOf } from '#server/store/folded-ahead.ts';
import type { Store } from '#server/store/open.ts';
import { findOrder } from '#server/store/orders.ts';
import { combined, groupsToCombine } from '#shared/combining/combine.ts';
import type { Order } from '#shared/planning/types.ts';

export type CombineOutcome = 'done' | 'unknown-order' | 'not-waiting' | 'not-together';
export type PartOutcome = 'done' | 'not-combined' | 'in-hand';

/** Makes orders one, or changes nothing. */
export function combineOrders(store: Store, ids: readonly string[], now: number): Promise<CombineOutcome> {
  return inTransaction(store, async (transaction): Promise<CombineOutcome> => {
    const orders: Order[] = [];
    for (const id of ids) {
      const stored = await findOrder(transaction, id);
      if (stored === null) return 'unknown-order';
      if (stored.state !== 'open' || (await foldedAheadOf(transaction, id)) !== null) return 'not-waiting';
      orders.push(stored.order);
    }
    const [group, ...others] = groupsToCombine(orders);
    const [first, ...rest] = group ?? [];
    if (first === undefined || others.length > 0 || rest.length + 1 < ids.length) return 'not-together';
    const whole = combined([first, ...rest]);
    if ((await findOrder(transaction, whole.id)) !== null) return 'not-together';
    await saveCombination(transaction, whole, now);
    return 'done';
  });
}

/** Takes a combination back while no bench has it in hand and nothing of it was packed, or changes nothing. */
export function partOrders(store: Store, id: string, now: number): Promise<PartOutcome> {
  return inTransaction(store, async (transaction): Promise<PartOutcome> => {
    const stored = await findOrder(transaction, id);
    if (stored?.order.combines === undefined) return 'not-combined';
    const begun = await transaction.selectFrom('parcel').select('id').where('order_id', '=', id).executeTakeFirst();
    const waits = stored.state === 'open' || stored.state === 'set-aside';
    if (!waits || begun !== undefined || (await foldedAheadOf(transaction, id)) !== null) return 'in-hand';
    await partCombination(transaction, id, now);
    return 'done';
  });
}
