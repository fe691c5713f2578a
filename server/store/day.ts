import { sql } from 'kysely';
import { dialectOf } from './dialect.ts';
import type { StoreOrTransaction } from './open.ts';
import { touchesOf } from './touches.ts';
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

/** An order of many parcels is in so many of the newest ones at most. */
const PARCELS_AN_ORDER = 4;

/** How long the newest finished orders took, in seconds. */
export async function lastOrderSeconds(store: StoreOrTransaction, most: number): Promise<readonly number[]> {
  // Of the newest parcels alone: all of them are read for seconds once a shop has packed for years.
  const newest = store
    .selectFrom('parcel')
    .select(['parcel.id', 'parcel.run'])
    .orderBy('parcel.id', 'desc')
    .limit(most * PARCELS_AN_ORDER)
    .as('newest');
  const rows = await store
    .selectFrom(newest)
    .innerJoin('run', 'run.id', 'newest.run')
    .select(['run.id', 'run.started_at', 'run.ended_at'])
    .where('run.ended_at', 'is not', null)
    .groupBy(['run.id', 'run.started_at', 'run.ended_at'])
    .orderBy((select) => select.fn.max('newest.id'), 'desc')
    .limit(most)
    .execute();
  return rows.flatMap(({ started_at, ended_at }) => (ended_at === null ? [] : [(ended_at - started_at) / 1000]));
}

/** The orders of parcels that were finished since an instant, after a parcel of a number. */
export async function finishedAfter(
  store: StoreOrTransaction,
  parcel: number,
  since: number,
): Promise<readonly { readonly parcel: number; readonly order: string }[]> {
  return store
    .selectFrom('parcel')
    .select(['id as parcel', 'order_id as order'])
    .where('id', '>', parcel)
    .where('finished_at', '>=', since)
    .orderBy('id')
    .execute();
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
  const written = touchesOf(store)?.written();
  if (written !== undefined) return written;
  // Of PostgreSQL which transactions are over and which are not: the same snapshot sees the same rows.
  const now = dialectOf(store) === 'sqlite' ? sql`total_changes()` : sql`pg_current_snapshot()::text`;
  const { rows } = await sql<{ changes: string | number }>`select ${now} as changes`.execute(store);
  return String(rows[0]?.changes);
}
