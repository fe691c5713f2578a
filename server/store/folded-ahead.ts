import { freeNumbers } from './free-numbers.ts';
import type { StoreOrTransaction } from './open.ts';

/** A piece as it was folded before its order's turn. */
export interface FoldedPiece {
  readonly sku: string;
  readonly recipe: string;
  /** the wrap that went around it, by id */
  readonly wrap: string;
}

/** An order whose pieces are being, or were, folded before its turn. */
export interface FoldedAhead {
  readonly order: string;
  readonly bench: string;
  readonly basket: number;
  readonly state: 'folding' | 'folded';
  /** of the order, when it was folded */
  readonly version: number;
  readonly pieces: readonly FoldedPiece[];
}

/** By basket. */
export async function foldedAheadAll(store: StoreOrTransaction): Promise<readonly FoldedAhead[]> {
  const rows = await store.selectFrom('folded_ahead').selectAll().orderBy('basket').execute();
  return rows.map(({ order_id, bench, basket, state, version, body }) => ({
    order: order_id,
    bench,
    basket,
    state,
    version,
    pieces: JSON.parse(body) as readonly FoldedPiece[],
  }));
}

export async function foldedAheadOf(store: StoreOrTransaction, order: string): Promise<FoldedAhead | null> {
  return (await foldedAheadAll(store)).find((each) => each.order === order) ?? null;
}

export interface ToHold {
  readonly order: string;
  readonly version: number;
  readonly pieces: readonly FoldedPiece[];
}

/**
 * Holds orders for a bench that folds them, each with a basket of its own: those that still wait as they were read, and that
 * nobody holds. Answers the basket of each that was held.
 */
export async function holdToFold(
  store: StoreOrTransaction,
  bench: string,
  orders: readonly ToHold[],
  now: number,
): Promise<ReadonlyMap<string, number>> {
  const held = new Map<string, number>();
  const before = await foldedAheadAll(store);
  const numbers = freeNumbers(before.map(({ basket }) => basket));
  for (const { order, version, pieces } of orders) {
    if (before.some((each) => each.order === order)) continue;
    const waits = await store
      .selectFrom('shop_order')
      .select('id')
      .where('id', '=', order)
      .where('state', '=', 'open')
      .where('version', '=', version)
      .executeTakeFirst();
    if (waits === undefined) continue;
    const basket = numbers.next().value;
    await store
      .insertInto('folded_ahead')
      .values({ order_id: order, bench, basket, state: 'folding', version, body: JSON.stringify(pieces), at: now })
      .execute();
    held.set(order, basket);
  }
  return held;
}

export async function markFolded(store: StoreOrTransaction, order: string, now: number): Promise<void> {
  await store.updateTable('folded_ahead').set({ state: 'folded', at: now }).where('order_id', '=', order).execute();
}

/** Orders whose pieces lie folded no more: they are packed, set aside or taken out. */
export async function letGoOfFolded(store: StoreOrTransaction, orders: readonly string[]): Promise<void> {
  if (orders.length === 0) return;
  await store.deleteFrom('folded_ahead').where('order_id', 'in', orders).execute();
}

/** What a bench has begun to fold and not finished is free again. */
export async function letGoOfUnfolded(store: StoreOrTransaction, bench: string): Promise<void> {
  await store.deleteFrom('folded_ahead').where('bench', '=', bench).where('state', '=', 'folding').execute();
}

/** Orders that a bench folds and that wait no more as they were when it began: changed, cancelled, set aside or taken. */
export async function changedSinceHeld(store: StoreOrTransaction, bench: string): Promise<readonly string[]> {
  const rows = await store
    .selectFrom('folded_ahead')
    .leftJoin('shop_order', 'shop_order.id', 'folded_ahead.order_id')
    .select('folded_ahead.order_id as order')
    .where('folded_ahead.bench', '=', bench)
    .where('folded_ahead.state', '=', 'folding')
    .where((where) =>
      where.or([
        where('shop_order.state', 'is', null),
        where('shop_order.state', '!=', 'open'),
        where('shop_order.version', '!=', where.ref('folded_ahead.version')),
      ]),
    )
    .execute();
  return rows.map(({ order }) => order);
}
