import { sql } from 'kysely';
import { dialectOf } from './dialect.ts';
import type { StoreOrTransaction } from './open.ts';
import type { Order } from '#shared/planning/types.ts';

/** An order that has not been packed, with what was done about it. */
export interface UnpackedOrder {
  readonly order: Order;
  readonly state: 'open' | 'packing' | 'set-aside';
  readonly bench: string | null;
  readonly reason: string | null;
}

export async function unpackedOrders(store: StoreOrTransaction): Promise<readonly UnpackedOrder[]> {
  const rows = await store
    .selectFrom('shop_order')
    .select(['body', 'state', 'bench', 'reason'])
    .where('state', 'in', ['open', 'packing', 'set-aside'])
    .execute();
  return rows.map(({ body, state, bench, reason }) => ({
    order: JSON.parse(body) as Order,
    state: state as UnpackedOrder['state'],
    bench,
    reason,
  }));
}

/** How long the newest finished orders took, in seconds. */
export async function lastOrderSeconds(store: StoreOrTransaction, most: number): Promise<readonly number[]> {
  const rows = await store
    .selectFrom('run')
    .innerJoin('parcel', 'parcel.run', 'run.id')
    .select(['run.id', 'run.started_at', 'run.ended_at'])
    .where('run.ended_at', 'is not', null)
    .groupBy('run.id')
    .orderBy((select) => select.fn.max('parcel.id'), 'desc')
    .limit(most)
    .execute();
  return rows.flatMap(({ started_at, ended_at }) => (ended_at === null ? [] : [(ended_at - started_at) / 1000]));
}

/** How many orders had a parcel finished since an instant. */
export async function ordersDoneSince(store: StoreOrTransaction, since: number): Promise<number> {
  const row = await store
    .selectFrom('parcel')
    .select((select) => select.fn.count<number>('order_id').distinct().as('count'))
    .where('finished_at', '>=', since)
    .executeTakeFirst();
  return row?.count ?? 0;
}

/** Different whenever something was stored meanwhile, by whomever: the same text twice means that nothing was. */
export async function storeChanges(store: StoreOrTransaction): Promise<string> {
  // Of PostgreSQL which transactions are over and which are not: the same snapshot sees the same rows.
  const now = dialectOf(store) === 'sqlite' ? sql`total_changes()` : sql`pg_current_snapshot()::text`;
  const { rows } = await sql<{ changes: string | number }>`select ${now} as changes`.execute(store);
  return String(rows[0]?.changes);
}
