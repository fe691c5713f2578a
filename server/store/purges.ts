import type { StoreOrTransaction } from './open.ts';
import type { Identity } from '#server/privacy/scrub.ts';

/** Data about people that somebody has asked to take out, as far as that has come. */
export interface Purge {
  readonly id: number;
  /** ids of the orders that still hold them */
  readonly orders: readonly string[];
  /** what is taken out; null once no row holds it any more, and only bytes of the file may */
  readonly identity: Identity | null;
  /** when it was asked, epoch ms */
  readonly at: number;
}

export async function addPurge(store: StoreOrTransaction, purge: Omit<Purge, 'id'>): Promise<Purge> {
  const { orders, identity, at } = purge;
  const { id } = await store
    .insertInto('purge_asked')
    .values({ orders: JSON.stringify(orders), identity: JSON.stringify(identity), at })
    .returning('id')
    .executeTakeFirstOrThrow();
  return { ...purge, id };
}

/** Those that are not through, the oldest first. */
export async function openPurges(store: StoreOrTransaction): Promise<readonly Purge[]> {
  const rows = await store.selectFrom('purge_asked').selectAll().orderBy('id').execute();
  return rows.map(({ id, orders, identity, at }) => ({
    id,
    orders: JSON.parse(orders) as readonly string[],
    identity: identity === null ? null : (JSON.parse(identity) as Identity),
    at,
  }));
}

export async function savePurge(store: StoreOrTransaction, { id, orders, identity }: Purge): Promise<void> {
  await store
    .updateTable('purge_asked')
    .set({ orders: JSON.stringify(orders), identity: identity === null ? null : JSON.stringify(identity) })
    .where('id', '=', id)
    .execute();
}

export async function endPurges(store: StoreOrTransaction, ids: readonly number[]): Promise<void> {
  await store.deleteFrom('purge_asked').where('id', 'in', ids).execute();
}
