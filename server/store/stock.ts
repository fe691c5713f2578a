import { sql } from 'kysely';
import type { StoreOrTransaction } from './open.ts';
import type { StockMoveKind, StockMoveRow } from '#shared/wire/supplies.ts';

/** Amounts are whole numbers of the supply's unit. */
export interface StockLevel {
  /** null where nobody has counted */
  readonly onHand: number | null;
  readonly onOrder: number;
  readonly countedAt: number | null;
}

export async function stockLevels(store: StoreOrTransaction): Promise<ReadonlyMap<string, StockLevel>> {
  const counted = await store.selectFrom('stock_level').selectAll().execute();
  const ordered = await store.selectFrom('stock_order').selectAll().execute();
  const onOrder = new Map(ordered.map((row) => [row.item, row.on_order]));
  const levels = new Map<string, StockLevel>(
    [...onOrder].map(([item, amount]) => [item, { onHand: null, onOrder: amount, countedAt: null }]),
  );
  for (const { item, on_hand, counted_at } of counted) {
    levels.set(item, { onHand: on_hand, onOrder: onOrder.get(item) ?? 0, countedAt: counted_at });
  }
  return levels;
}

interface Move {
  readonly item: string;
  readonly kind: StockMoveKind;
  readonly amount: number;
  readonly after: number | null;
  readonly parcel: string | null;
  readonly reason: string;
  readonly who: string | null;
  readonly at: number;
}

async function addMove(store: StoreOrTransaction, move: Move): Promise<void> {
  await store.insertInto('stock_move').values(move).execute();
}

async function change(store: StoreOrTransaction, item: string, by: number): Promise<number | null> {
  const row = await store
    .updateTable('stock_level')
    .set({ on_hand: sql<number>`on_hand + ${by}` })
    .where('item', '=', item)
    .returning('on_hand')
    .executeTakeFirst();
  return row?.on_hand ?? null;
}

/**
 * Takes what a finished parcel used off the shelf; belongs into the transaction that finishes the parcel.
 * @param parcel which one, as `order/run/number`: the same parcel never counts twice
 * @throws the store's error when the parcel was counted before
 */
export async function countDown(
  store: StoreOrTransaction,
  used: ReadonlyMap<string, number>,
  { parcel, day, at }: { readonly parcel: string; readonly day: string; readonly at: number },
): Promise<void> {
  for (const [item, amount] of used) {
    const after = await change(store, item, -amount);
    await addMove(store, { item, kind: 'used', amount: -amount, after, parcel, reason: '', who: null, at });
    await store
      .insertInto('stock_day')
      .values({ item, day, used: amount })
      .onConflict((conflict) =>
        conflict.columns(['item', 'day']).doUpdateSet({ used: sql<number>`stock_day.used + ${amount}` }),
      )
      .execute();
  }
}

export interface StockChange {
  readonly item: string;
  readonly kind: Exclude<StockMoveKind, 'used'>;
  /** what was counted, or by how much it changed; zero or more */
  readonly amount: number;
  readonly reason: string;
  readonly who: string | null;
  readonly at: number;
}

/** Notes what a person did to the shelf. The first thing that comes in is a count of what was not counted before. */
export async function changeStock(store: StoreOrTransaction, entry: StockChange): Promise<void> {
  const { item, kind, amount, at } = entry;
  switch (kind) {
    case 'counted':
      await setLevel(store, item, amount, at);
      return addMove(store, { ...entry, after: amount, parcel: null });
    case 'received': {
      await addToOrder(store, item, -amount);
      const after = await change(store, item, amount);
      return addMove(store, { ...entry, after, parcel: null });
    }
    case 'ordered':
      await addToOrder(store, item, amount);
      return addMove(store, { ...entry, after: null, parcel: null });
    case 'taken': {
      const after = await change(store, item, -amount);
      return addMove(store, { ...entry, amount: -amount, after, parcel: null });
    }
  }
}

async function setLevel(store: StoreOrTransaction, item: string, onHand: number, at: number): Promise<void> {
  await store
    .insertInto('stock_level')
    .values({ item, on_hand: onHand, counted_at: at })
    .onConflict((conflict) => conflict.column('item').doUpdateSet({ on_hand: onHand, counted_at: at }))
    .execute();
}

/** What came without having been ordered leaves nothing on order. */
async function addToOrder(store: StoreOrTransaction, item: string, by: number): Promise<void> {
  await store
    .insertInto('stock_order')
    .values({ item, on_order: Math.max(0, by) })
    .onConflict((conflict) =>
      conflict.column('item').doUpdateSet({
        on_order: sql<number>`case when stock_order.on_order > ${-by} then stock_order.on_order + ${by} else 0 end`,
      }),
    )
    .execute();
}

/** What each day took since a day, by item and then day. */
export async function usedByDay(
  store: StoreOrTransaction,
  since: string,
): Promise<ReadonlyMap<string, ReadonlyMap<string, number>>> {
  const rows = await store.selectFrom('stock_day').selectAll().where('day', '>=', since).execute();
  const items = new Map<string, Map<string, number>>();
  for (const { item, day, used } of rows) {
    const days = items.get(item) ?? new Map<string, number>();
    days.set(day, used);
    items.set(item, days);
  }
  return items;
}

/** The first day of which anything is known; null before the first parcel. */
export async function firstDay(store: StoreOrTransaction): Promise<string | null> {
  const row = await store
    .selectFrom('stock_day')
    .select((select) => select.fn.min('day').as('day'))
    .executeTakeFirst();
  return row?.day ?? null;
}

/** The newest changes of an item, newest first. */
export async function stockMoves(
  store: StoreOrTransaction,
  item: string,
  most: number,
): Promise<readonly StockMoveRow[]> {
  return store
    .selectFrom('stock_move')
    .select(['id', 'kind', 'amount', 'after', 'parcel', 'reason', 'who', 'at'])
    .where('item', '=', item)
    .orderBy('id', 'desc')
    .limit(most)
    .execute();
}
