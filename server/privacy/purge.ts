import { setImmediate } from 'node:timers/promises';
import { sql } from 'kysely';
import { identityOf, ordersOfBuyer, type BuyersOrder } from './buyer.ts';
import { purgeBenches, purgeOrder, purgeOtherPrints } from './purge-rows.ts';
import { TAKEN_OUT } from './scrub.ts';
import { removeTaken, takenFilesWith } from './taken-files.ts';
import type { PhotoFiles } from '#server/proof/photo-files.ts';
import { dialectOf } from '#server/store/dialect.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { writeAnew } from '#server/store/write-anew.ts';
import { ordersAwaitingAnswers } from '#server/store/label-requests.ts';
import { markPhotosRemoved } from '#server/store/photos.ts';
import { addPurge, endPurges, openPurges, savePurge, type Purge } from '#server/store/purges.ts';
import type { BytesLeft } from '#shared/wire/privacy.ts';

export interface PurgeParts {
  readonly store: Store;
  readonly files: PhotoFiles;
  readonly now: number;
  /** whose files that were taken in name buyers, too */
  readonly watchedFolder?: string;
  /** some bench has an order in hand: it would wait for seconds while the file is written anew */
  readonly isPacking?: () => boolean;
  /** lets others have their turn */
  readonly between?: () => Promise<unknown>;
  /** the rows of these orders are changed: whoever holds one of them reads it again */
  readonly onRows?: (orders: readonly string[]) => Promise<void>;
}

const PRINTS_AT_ONCE = 100;

export type PurgeOutcome =
  | { readonly done: true; readonly orders: readonly string[]; readonly bytesLeft: BytesLeft }
  | {
      readonly done: false;
      readonly why: 'unknown-buyer' | 'still-open' | 'still-printing' | 'label-under-way';
      readonly orders: readonly string[];
    };

const SETTLED: ReadonlySet<string> = new Set(['packed', 'cancelled', 'combined']);

/**
 * Takes everything out of the store that tells who a buyer is: orders, runs' inputs, parcels, labels, prints, photos and the
 * search. What was packed, weighed and paid stays, so that counts and money come out as before. Refused while one of the
 * orders is not packed or cancelled: it could not be sent any more.
 * @param note keeps who did it, in the same transaction
 */
export async function purgeBuyer(
  parts: PurgeParts,
  buyer: string,
  note: (transaction: StoreOrTransaction, orders: readonly string[]) => Promise<void>,
): Promise<PurgeOutcome> {
  const found = buyer === TAKEN_OUT ? [] : await ordersOfBuyer(parts.store, buyer);
  const open = found.filter(({ state }) => !SETTLED.has(state));
  if (found.length === 0) return { done: false, why: 'unknown-buyer', orders: [] };
  if (open.length > 0) return { done: false, why: 'still-open', orders: open.map(({ order }) => order.id) };
  const printing = await printingOf(parts.store, found);
  if (printing.length > 0) return { done: false, why: 'still-printing', orders: printing };
  const ids = found.map(({ order }) => order.id);
  const asked = await ordersAwaitingAnswers(parts.store, ids, parts.now);
  if (asked.length > 0) return { done: false, why: 'label-under-way', orders: asked };
  const orders = await purgeOrders(parts, { found, inFiles: buyer }, note);
  if (parts.isPacking?.() === true) return { done: true, orders, bytesLeft: 'later' };
  const bytesLeft = await forgetPurged(parts.store).then(
    () => 'none' as const,
    () => 'refused' as const,
  );
  return { done: true, orders, bytesLeft };
}

/** Orders with a slip or label on its way to paper: what comes of it is still to be stored by their bench. */
async function printingOf(store: Store, found: readonly BuyersOrder[]): Promise<readonly string[]> {
  const rows = await store
    .selectFrom('print_job')
    .innerJoin('run', 'run.id', 'print_job.run')
    .select('run.order_id')
    .distinct()
    .where(
      'run.order_id',
      'in',
      found.map(({ order }) => order.id),
    )
    .where('print_job.state', 'in', ['queued', 'sending'])
    .execute();
  return rows.map(({ order_id }) => order_id);
}

/**
 * The same for some orders, one after the other: benches get their turn in between. What was asked is kept before the first,
 * so that one that is cut off is gone on with. The bytes of what stood there are forgotten by {@link forgetPurged}.
 */
export async function purgeOrders(
  parts: PurgeParts,
  { found, inFiles }: { readonly found: readonly BuyersOrder[]; readonly inFiles?: string },
  note: (transaction: StoreOrTransaction, orders: readonly string[]) => Promise<void>,
): Promise<readonly string[]> {
  const orders = found.map(({ order }) => order);
  const ids = orders.map(({ id }) => id);
  const asked = await inTransaction(parts.store, async (transaction) => {
    await note(transaction, ids);
    const identity = { ...(await identityOf(transaction, orders)), ...(inFiles === undefined ? {} : { inFiles }) };
    return addPurge(transaction, { orders: ids, identity, at: parts.now });
  });
  await carryOut(parts, asked);
  return ids;
}

/**
 * Goes on with what was cut off.
 * @param onFileLeft a file cannot be removed: what is to be taken out stays asked, and the others are gone on with
 * @returns how many there were
 */
export async function resumePurges(parts: PurgeParts, onFileLeft?: (error: unknown) => void): Promise<number> {
  const open = (await openPurges(parts.store)).filter(({ identity }) => identity !== null);
  for (const each of open) {
    try {
      await carryOut(parts, each);
    } catch (error) {
      const isAboutFile = error instanceof Error && 'path' in error;
      if (onFileLeft === undefined || !isAboutFile) throw error;
      onFileLeft(error);
    }
  }
  return open.length;
}

async function carryOut({ store, files, now, watchedFolder, ...parts }: PurgeParts, asked: Purge): Promise<void> {
  const { identity } = asked;
  if (identity === null) return;
  const { between = setImmediate, onRows = () => Promise.resolve() } = parts;
  await deletedIsOverwritten(store, true);
  let left = asked;
  for (const id of asked.orders) {
    await between();
    const remaining = { ...left, orders: left.orders.filter((each) => each !== id) };
    const gone = await inTransaction(store, async (transaction) => {
      const { files: photos } = await markPhotosRemoved(transaction, { orders: [id] }, now);
      await purgeOrder(transaction, id, identity);
      await savePurge(transaction, remaining);
      return photos;
    });
    left = remaining;
    for (const file of gone) await files.remove(file);
  }
  for (let after: number | null = 0; after !== null;) {
    await between();
    const from: number = after;
    after = await inTransaction(store, (transaction) =>
      purgeOtherPrints(transaction, identity, { after: from, most: PRINTS_AT_ONCE }),
    );
  }
  // A bench that shows one of them as its last would store it again with its next step: it lets go of it in between.
  await inTransaction(store, (transaction) => purgeBenches(transaction, identity));
  await onRows(asked.orders);
  // Copies outside the store go once it is sure that what they say goes, and before what names them does.
  if (watchedFolder !== undefined && identity.inFiles !== undefined)
    await removeTaken(await takenFilesWith(watchedFolder, identity.inFiles));
  await inTransaction(store, async (transaction) => {
    await purgeBenches(transaction, identity);
    await savePurge(transaction, { ...left, orders: [], identity: null });
  });
}

/**
 * What is deleted is overwritten at once. The full-text index keeps it until it is merged, unless it is told otherwise (SQLite
 * FTS5, "secure-delete").
 */
async function deletedIsOverwritten(store: Store, on: boolean): Promise<void> {
  if (dialectOf(store) !== 'sqlite') return;
  await sql`pragma secure_delete = ${sql.lit(on ? 1 : 0)}`.execute(store);
  for (const index of ['search_order', 'search_buyer']) {
    await sql`insert into ${sql.table(index)}(${sql.table(index)}, rank) values ('secure-delete', ${sql.lit(on ? 1 : 0)})`.execute(
      store,
    );
  }
}

/** No byte of what was taken out is left in the store's files. Whoever wants to write waits meanwhile. */
export async function forgetPurged(store: Store): Promise<void> {
  const done = (await openPurges(store)).flatMap(({ id, identity }) => (identity === null ? [id] : []));
  if (done.length === 0) return;
  await deletedIsOverwritten(store, false);
  await writeAnew(store);
  await endPurges(store, done);
}
