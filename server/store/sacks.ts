import { combinationOf } from './combining.ts';
import type { StoreOrTransaction } from './open.ts';
import { parcelOfRow, type ParcelColumns, type StoredParcel } from './parcels.ts';
import type { CollectionOnDay } from '#shared/hand-over/collections.ts';

/** What one carrier takes at one collection. */
export interface Sack extends CollectionOnDay {
  readonly id: number;
  /** the bench whose scanner loads it */
  readonly bench: string | null;
  readonly closedAt: number | null;
  readonly closedBy: string | null;
}

/** A parcel with what became of it after its label. */
export interface ParcelOnItsWay extends StoredParcel {
  readonly sack: number | null;
  readonly leftAt: number | null;
  /** why it never leaves */
  readonly stays: string | null;
}

interface SackColumns {
  readonly id: number;
  readonly carrier: string;
  readonly day: string;
  readonly at: string;
  readonly bench: string | null;
  readonly closed_at: number | null;
  readonly closed_by: string | null;
}

const toSack = ({ closed_at, closed_by, id, carrier, day, at, bench }: SackColumns): Sack => ({
  id,
  carrier,
  day,
  at,
  bench,
  closedAt: closed_at,
  closedBy: closed_by,
});

interface WayColumns extends ParcelColumns {
  readonly sack: number | null;
  readonly left_at: number | null;
  readonly stays: string | null;
}

const onItsWay = (row: WayColumns): ParcelOnItsWay => ({
  ...parcelOfRow(row),
  sack: row.sack,
  leftAt: row.left_at,
  stays: row.stays,
});

/** Parcels that are labelled, have not left, and were not kept back; the oldest first. */
export async function waitingParcels(store: StoreOrTransaction): Promise<readonly ParcelOnItsWay[]> {
  const rows = await store
    .selectFrom('parcel')
    .selectAll()
    .where('left_at', 'is', null)
    .where('stays', 'is', null)
    .orderBy('id')
    .execute();
  return rows.map(onItsWay);
}

/** When the parcels that wait and were finished before an instant were, and for whom they are. */
export async function waitingSince(
  store: StoreOrTransaction,
  before: number,
): Promise<readonly { readonly carrier: string; readonly finishedAt: number }[]> {
  const rows = await store
    .selectFrom('parcel')
    .select(['carrier', 'finished_at'])
    .where('left_at', 'is', null)
    .where('stays', 'is', null)
    .where('finished_at', '<', before)
    .execute();
  return rows.map(({ carrier, finished_at }) => ({ carrier: carrier ?? '', finishedAt: finished_at }));
}

/** How many parcels of a carrier wait, and how many of them are in a sack. */
export async function countWaiting(
  store: StoreOrTransaction,
  carrier: string,
  sack: number,
): Promise<{ readonly all: number; readonly inSack: number }> {
  const waiting = store
    .selectFrom('parcel')
    .select((select) => select.fn.countAll<number>().as('count'))
    .where('left_at', 'is', null)
    .where('stays', 'is', null);
  const all = await waiting.where('carrier', '=', carrier).executeTakeFirst();
  const inSack = await waiting.where('sack', '=', sack).executeTakeFirst();
  return { all: all?.count ?? 0, inSack: inSack?.count ?? 0 };
}

export async function parcelsInSack(store: StoreOrTransaction, sack: number): Promise<readonly ParcelOnItsWay[]> {
  const rows = await store.selectFrom('parcel').selectAll().where('sack', '=', sack).orderBy('sacked_at').execute();
  return rows.map(onItsWay);
}

export async function parcelWithLabel(store: StoreOrTransaction, label: string): Promise<ParcelOnItsWay | null> {
  const row = await store.selectFrom('parcel').selectAll().where('label', '=', label).executeTakeFirst();
  return row === undefined ? null : onItsWay(row);
}

export async function parcelById(store: StoreOrTransaction, id: number): Promise<ParcelOnItsWay | null> {
  const row = await store.selectFrom('parcel').selectAll().where('id', '=', id).executeTakeFirst();
  return row === undefined ? null : onItsWay(row);
}

/** The parcels of an order that have been finished. */
export async function parcelsOfOrder(store: StoreOrTransaction, order: string): Promise<readonly ParcelOnItsWay[]> {
  const whole = await combinationOf(store, order);
  const rows = await store
    .selectFrom('parcel')
    .selectAll()
    .where('order_id', 'in', whole === null ? [order] : [order, whole])
    .orderBy('id')
    .execute();
  return rows.map(onItsWay);
}

export async function openSacks(store: StoreOrTransaction): Promise<readonly Sack[]> {
  const rows = await store.selectFrom('sack').selectAll().where('closed_at', 'is', null).orderBy('id').execute();
  return rows.map(toSack);
}

export async function sackById(store: StoreOrTransaction, id: number): Promise<Sack | null> {
  const row = await store.selectFrom('sack').selectAll().where('id', '=', id).executeTakeFirst();
  return row === undefined ? null : toSack(row);
}

/** The carrier's open sack, begun for a collection where there is none. */
export async function openSack(store: StoreOrTransaction, of: CollectionOnDay, now: number): Promise<Sack> {
  await store
    .insertInto('sack')
    .values({ ...of, bench: null, opened_at: now, closed_at: null, closed_by: null })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
  const row = await store
    .selectFrom('sack')
    .selectAll()
    .where('carrier', '=', of.carrier)
    .where('closed_at', 'is', null)
    .executeTakeFirstOrThrow();
  return toSack(row);
}

/** From now on the scanner of a bench loads this sack and no other; null lets none load it. */
export async function loadAt(store: StoreOrTransaction, sack: number, bench: string | null): Promise<void> {
  if (bench !== null) await store.updateTable('sack').set({ bench: null }).where('bench', '=', bench).execute();
  await store.updateTable('sack').set({ bench }).where('id', '=', sack).execute();
}

/** Puts a parcel into a sack. False when it lies in one, has left or stays: any number of scans put it in once. */
export async function putInSack(
  store: StoreOrTransaction,
  parcel: number,
  sack: number,
  now: number,
): Promise<boolean> {
  const result = await store
    .updateTable('parcel')
    .set({ sack, sacked_at: now })
    .where('id', '=', parcel)
    .where('sack', 'is', null)
    .where('left_at', 'is', null)
    .where('stays', 'is', null)
    .executeTakeFirst();
  return result.numUpdatedRows === 1n;
}

/** Takes a parcel out of an open sack. */
export async function takeOutOfSack(store: StoreOrTransaction, parcel: number): Promise<boolean> {
  const result = await store
    .updateTable('parcel')
    .set({ sack: null, sacked_at: null })
    .where('id', '=', parcel)
    .where('left_at', 'is', null)
    .executeTakeFirst();
  return result.numUpdatedRows === 1n;
}

/** The carrier has taken the sack: it is closed and its parcels have left. False when it was closed before. */
export async function closeSack(
  store: StoreOrTransaction,
  sack: number,
  by: string | null,
  now: number,
): Promise<boolean> {
  const closed = await store
    .updateTable('sack')
    .set({ closed_at: now, closed_by: by, bench: null })
    .where('id', '=', sack)
    .where('closed_at', 'is', null)
    .executeTakeFirst();
  if (closed.numUpdatedRows !== 1n) return false;
  await store.updateTable('parcel').set({ left_at: now }).where('sack', '=', sack).execute();
  return true;
}

/** A parcel that never leaves, and why. False when it has left. */
export async function keepParcel(store: StoreOrTransaction, parcel: number, reason: string): Promise<boolean> {
  const result = await store
    .updateTable('parcel')
    .set({ stays: reason, sack: null, sacked_at: null })
    .where('id', '=', parcel)
    .where('left_at', 'is', null)
    .executeTakeFirst();
  return result.numUpdatedRows === 1n;
}

/** When each carrier last drove off. */
export async function lastClosings(store: StoreOrTransaction): Promise<ReadonlyMap<string, number>> {
  const rows = await store
    .selectFrom('sack')
    .select((select) => ['carrier', select.fn.max('closed_at').as('at')])
    .where('closed_at', 'is not', null)
    .groupBy('carrier')
    .execute();
  return new Map(rows.flatMap(({ carrier, at }) => (at === null ? [] : [[carrier, at] as const])));
}

/** The sacks that were handed over, the newest first. */
export async function closedSacks(store: StoreOrTransaction, most: number): Promise<readonly Sack[]> {
  const rows = await store
    .selectFrom('sack')
    .selectAll()
    .where('closed_at', 'is not', null)
    .orderBy('closed_at', 'desc')
    .limit(most)
    .execute();
  return rows.map(toSack);
}
