import { sql } from 'kysely';
import { identityOf, ordersOfBuyer, type BuyersOrder } from './buyer.ts';
import { coarse, scrubbed, TAKEN_OUT, type Identity } from './scrub.ts';
import type { PhotoFiles } from '#server/proof/photo-files.ts';
import { dialectOf } from '#server/store/dialect.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { writeAnew } from '#server/store/write-anew.ts';
import { ordersAwaitingAnswers } from '#server/store/label-requests.ts';
import { markPhotosRemoved } from '#server/store/photos.ts';

export interface PurgeParts {
  readonly store: Store;
  readonly files: PhotoFiles;
  readonly now: number;
}

export type PurgeOutcome =
  /** `bytesLeft`: the rows are changed, but the file could not be written anew: the disk may be full */
  | { readonly done: true; readonly orders: readonly string[]; readonly bytesLeft: boolean }
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
  const orders = await purgeOrders(parts, found, note);
  const bytesLeft = await forgetBytes(parts.store).then(
    () => false,
    () => true,
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

/** The same for some orders, in one transaction; the bytes of what stood there are forgotten by {@link forgetBytes}. */
export async function purgeOrders(
  { store, files, now }: PurgeParts,
  found: readonly BuyersOrder[],
  note: (transaction: StoreOrTransaction, orders: readonly string[]) => Promise<void>,
): Promise<readonly string[]> {
  const orders = found.map(({ order }) => order);
  const ids = orders.map(({ id }) => id);
  await searchForgets(store, true);
  const gone = await inTransaction(store, async (transaction) => {
    const identity = await identityOf(transaction, orders);
    const { files: photos } = await markPhotosRemoved(transaction, { orders: ids }, now);
    await purgeRows(transaction, ids, identity);
    await note(transaction, ids);
    return photos;
  });
  for (const file of gone) await files.remove(file);
  return ids;
}

async function purgeRows(store: StoreOrTransaction, ids: readonly string[], identity: Identity): Promise<void> {
  const text = (json: string): string => JSON.stringify(scrubbed(JSON.parse(json), identity));
  for (const { id, body, reason } of await store
    .selectFrom('shop_order')
    .select(['id', 'body', 'reason'])
    .where('id', 'in', ids)
    .execute()) {
    await store
      .updateTable('shop_order')
      .set({ body: text(body), reason: reason === null ? null : String(scrubbed(reason, identity)) })
      .where('id', '=', id)
      .execute();
  }
  await store.deleteFrom('address_checked').where('order_id', 'in', ids).execute();
  const runs = (await store.selectFrom('run').select('id').where('order_id', 'in', ids).execute()).map(({ id }) => id);
  if (runs.length > 0) await purgeRuns(store, runs, text);
  for (const { id, body } of await store
    .selectFrom('parcel')
    .select(['id', 'body'])
    .where('order_id', 'in', ids)
    .execute()) {
    const parcel = JSON.parse(text(body)) as { postcode?: string };
    const coarser = JSON.stringify({ ...parcel, postcode: coarse(parcel.postcode ?? '') });
    await store.updateTable('parcel').set({ body: coarser, label: null }).where('id', '=', id).execute();
  }
  for (const { id, facts, body, state } of await store
    .selectFrom('label_request')
    .select(['id', 'facts', 'body', 'state'])
    .where('order_id', 'in', ids)
    .execute()) {
    // Nothing is asked for any more in the name of nobody.
    const ended = state === 'waiting' || state === 'held' ? 'withdrawn' : state;
    await store
      .updateTable('label_request')
      .set({ facts: text(facts), body: text(body), state: ended, answer: '', tracking: null, label: null })
      .where('id', '=', id)
      .execute();
  }
  await purgeBenches(store, text);
  await purgeOtherPrints(store, identity);
}

async function purgeRuns(
  store: StoreOrTransaction,
  runs: readonly string[],
  text: (json: string) => string,
): Promise<void> {
  const inputs = await store.selectFrom('input').select(['bench', 'seq', 'body']).where('run', 'in', runs).execute();
  for (const { bench, seq, body } of inputs) {
    const told = text(body);
    if (told === body) continue;
    await store.updateTable('input').set({ body: told }).where('bench', '=', bench).where('seq', '=', seq).execute();
  }
  await store
    .updateTable('print_job')
    .set({ bytes: Buffer.alloc(0), title: '', replaced: '', why: '' })
    .where('run', 'in', runs)
    .where('state', 'not in', ['queued', 'sending'])
    .execute();
}

/** A bench shows the order that it has packed last until it takes another. */
async function purgeBenches(store: StoreOrTransaction, text: (json: string) => string): Promise<void> {
  for (const { bench, body } of await store.selectFrom('bench_state').select(['bench', 'body']).execute()) {
    const told = text(body);
    if (told !== body) await store.updateTable('bench_state').set({ body: told }).where('bench', '=', bench).execute();
  }
}

/** Lists and sheets that name a label or a buyer among others. */
async function purgeOtherPrints(store: StoreOrTransaction, { texts }: Identity): Promise<void> {
  const sought = texts.filter((each) => each.length >= 4);
  for (const { id, bytes } of await store
    .selectFrom('print_job')
    .select(['id', 'bytes'])
    .where('run', 'is', null)
    .execute()) {
    const told = Buffer.from(bytes).toString('latin1');
    if (!sought.some((each) => told.includes(each))) continue;
    await store
      .updateTable('print_job')
      .set({ bytes: Buffer.alloc(0), title: '' })
      .where('id', '=', id)
      .execute();
  }
}

/** The full-text index keeps what was deleted until it is merged, unless it is told otherwise (SQLite FTS5, "secure-delete"). */
async function searchForgets(store: Store, on: boolean): Promise<void> {
  if (dialectOf(store) !== 'sqlite') return;
  for (const index of ['search_order', 'search_buyer']) {
    await sql`insert into ${sql.table(index)}(${sql.table(index)}, rank) values ('secure-delete', ${sql.lit(on ? 1 : 0)})`.execute(
      store,
    );
  }
}

/** No byte of what was deleted or overwritten is left in the store's files. */
export async function forgetBytes(store: Store): Promise<void> {
  await searchForgets(store, false);
  await writeAnew(store);
}
