import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { closeOrder, findOrder } from '#server/store/orders.ts';

export type CancelOutcome =
  | 'done'
  | 'unknown-order'
  /** a bench has it in hand: it is given back first */
  | 'in-hand'
  /** packed, cancelled already, or a part of another order */
  | 'not-waiting'
  /** several orders that were made one: they are taken apart first */
  | 'combined'
  /** a part of it is packed and labelled */
  | 'parcel-finished';

export type ReopenOutcome = 'done' | 'unknown-order' | 'not-cancelled' | 'piece-sold';

/** Keeps who did it, in the same transaction. */
type Noting = (transaction: StoreOrTransaction) => Promise<void>;
const NOT_NOTED: Noting = () => Promise.resolve();

/** Cancels an order that waits; its pieces are free for other orders. Nothing of it is forgotten. */
export function cancelOrder(store: Store, id: string, now: number, note = NOT_NOTED): Promise<CancelOutcome> {
  return inTransaction(store, async (transaction): Promise<CancelOutcome> => {
    const stored = await findOrder(transaction, id);
    if (stored === null) return 'unknown-order';
    if (stored.state === 'packing') return 'in-hand';
    if (stored.state !== 'open' && stored.state !== 'set-aside') return 'not-waiting';
    if (stored.order.combines !== undefined) return 'combined';
    const parcel = await transaction.selectFrom('parcel').select('id').where('order_id', '=', id).executeTakeFirst();
    if (parcel !== undefined) return 'parcel-finished';
    await closeOrder(transaction, { order: id, state: 'cancelled', reason: null, now });
    await note(transaction);
    return 'done';
  });
}

/** A cancelled order waits again, unless one of its pieces is another order's by now. */
export function reopenOrder(store: Store, id: string, now: number, note = NOT_NOTED): Promise<ReopenOutcome> {
  return inTransaction(store, async (transaction): Promise<ReopenOutcome> => {
    const stored = await findOrder(transaction, id);
    if (stored === null) return 'unknown-order';
    if (stored.state !== 'cancelled') return 'not-cancelled';
    const elsewhere = await transaction
      .selectFrom('order_piece')
      .innerJoin('shop_order', 'shop_order.id', 'order_piece.order_id')
      .select('shop_order.id')
      .where('order_piece.order_id', '!=', id)
      .where('shop_order.state', '!=', 'cancelled')
      .where('order_piece.sku', 'in', (query) =>
        query.selectFrom('order_piece as mine').select('mine.sku').where('mine.order_id', '=', id),
      )
      .executeTakeFirst();
    if (elsewhere !== undefined) return 'piece-sold';
    await closeOrder(transaction, { order: id, state: 'open', reason: null, now });
    await note(transaction);
    return 'done';
  });
}
