import type { Selectable } from 'kysely';
import type { StoreOrTransaction } from './open.ts';
import type { Tables } from './schema.ts';

export type PhotoRow = Selectable<Tables['photo']>;

/** Adds a photo, or why there is none. False where one of this id was added before. */
export async function addPhoto(store: StoreOrTransaction, photo: PhotoRow): Promise<boolean> {
  const added = await store
    .insertInto('photo')
    .values(photo)
    .onConflict((conflict) => conflict.column('id').doNothing())
    .executeTakeFirst();
  return added.numInsertedOrUpdatedRows === 1n;
}

export async function photoById(store: StoreOrTransaction, id: string): Promise<PhotoRow | null> {
  return (await store.selectFrom('photo').selectAll().where('id', '=', id).executeTakeFirst()) ?? null;
}

/** Of an order, the oldest first. */
export async function photosOfOrder(store: StoreOrTransaction, order: string): Promise<readonly PhotoRow[]> {
  return store
    .selectFrom('photo')
    .selectAll()
    .where('order_id', '=', order)
    .orderBy('taken_at')
    .orderBy('id')
    .execute();
}

/** How many photos each of some orders has; orders without one are left out. */
export async function photoCounts(
  store: StoreOrTransaction,
  orders: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  if (orders.length === 0) return new Map();
  const rows = await store
    .selectFrom('photo')
    .select((select) => ['order_id', select.fn.countAll<number>().as('count')])
    .where('order_id', 'in', orders)
    .where('file', 'is not', null)
    .groupBy('order_id')
    .execute();
  return new Map(rows.map(({ order_id, count }) => [order_id, count]));
}

/** The files of all photos that are kept. */
export async function photoFileNames(store: StoreOrTransaction): Promise<ReadonlySet<string>> {
  const rows = await store.selectFrom('photo').select('file').where('file', 'is not', null).execute();
  return new Set(rows.flatMap(({ file }) => (file === null ? [] : [file])));
}

/**
 * Marks photos as removed; their rows stay, so that it can be told when each went.
 * At most {@link MOST_AT_ONCE} of them.
 * @returns how many, and the files that no row names any more
 */
export async function markPhotosRemoved(
  store: StoreOrTransaction,
  which: { readonly takenBefore: number } | { readonly orders: readonly string[] },
  now: number,
): Promise<{ readonly removed: number; readonly files: readonly string[] }> {
  const { ids, files } = await keptPhotos(store, which);
  if (ids.length === 0) return { removed: 0, files: [] };
  await store.updateTable('photo').set({ file: null, removed_at: now }).where('id', 'in', ids).execute();
  const named = await store.selectFrom('photo').select('file').where('file', 'in', files).execute();
  const still = new Set(named.map(({ file }) => file));
  return { removed: ids.length, files: files.filter((file) => !still.has(file)) };
}

/** At most so many at a time: a statement takes a bounded number of parameters. */
const MOST_AT_ONCE = 400;

async function keptPhotos(
  store: StoreOrTransaction,
  which: { readonly takenBefore: number } | { readonly orders: readonly string[] },
): Promise<{ readonly ids: readonly string[]; readonly files: readonly string[] }> {
  const base = store.selectFrom('photo').select(['id', 'file']).where('file', 'is not', null).limit(MOST_AT_ONCE);
  const rows = await (
    'orders' in which ? base.where('order_id', 'in', which.orders) : base.where('taken_at', '<', which.takenBefore)
  ).execute();
  return { ids: rows.map(({ id }) => id), files: [...new Set(rows.map(({ file }) => file ?? ''))] };
}
