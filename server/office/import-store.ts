import { randomUUID } from 'node:crypto';
import { setImmediate } from 'node:timers/promises';
import { inTransaction } from '#server/store/in-transaction.ts';
import {
  beginJob,
  countStored,
  endJob,
  jobNow,
  keepRecords,
  leftJobs,
  settleJob,
  takeRecords,
  type ImportJob,
  type Stored,
} from '#server/store/imports.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { heldSince, saveOrders, statesOf } from '#server/store/orders.ts';
import { carryToRests } from './partial/leave-out.ts';
import { findPieces, savePieces } from '#server/store/pieces.ts';
import type { RecordList } from './imports/kept-records.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order, OrderState } from '#shared/planning/types.ts';

export type Records =
  | { readonly subject: 'pieces'; readonly records: RecordList<Piece> }
  | { readonly subject: 'orders'; readonly records: RecordList<Order> };

/** Some of them, in memory. */
type Some =
  | { readonly subject: 'pieces'; readonly records: readonly Piece[] }
  | { readonly subject: 'orders'; readonly records: readonly Order[] };

export interface StoreWhen {
  /** epoch ms */
  readonly now: number;
  /** when the store was looked at, before which nothing needs to be asked again */
  readonly since: number;
  /** done in the transaction from which on everything is stored */
  readonly settle?: (transaction: StoreOrTransaction) => Promise<void>;
}

/** Told how far a long piece of work is, in any unit. */
export type Progress = (done: number, of: number) => void;

/** So many are stored at once: some milliseconds in which nothing else gets a turn. */
const CHUNK = 50;
const CHANGEABLE: ReadonlySet<OrderState> = new Set(['open', 'set-aside']);

/**
 * Stores all records or none. Few go in at once; many are first put by, and then stored in short transactions between
 * which benches and scales get their turn. A server that is stopped before all are put by forgets them; one that is
 * stopped afterwards goes on when it starts again.
 */
export async function storeRecords(
  store: Store,
  all: Records,
  { now, since, settle }: StoreWhen,
  progress?: Progress,
): Promise<Stored> {
  const total = all.records.length;
  if (total <= CHUNK) {
    return inTransaction(store, async (transaction) => {
      await settle?.(transaction);
      if (total === 0) return { added: 0, changed: 0, refused: 0 };
      return storeChunk(transaction, someOf(all, 0, total), { at: now, since });
    });
  }
  const job = { id: randomUUID(), subject: all.subject, total, at: now, since };
  await beginJob(store, job);
  for (let at = 0; at < total; at += CHUNK) {
    const chunk = all.records.slice(at, Math.min(total, at + CHUNK));
    await keepRecords(
      store,
      job.id,
      at,
      chunk.map((record) => JSON.stringify(record)),
    );
    progress?.(at + chunk.length, 2 * total);
    await setImmediate();
  }
  await inTransaction(store, async (transaction) => {
    await settle?.(transaction);
    await settleJob(transaction, job.id);
  });
  return finish(store, job, progress);
}

function someOf(all: Records, from: number, to: number): Some {
  return all.subject === 'pieces'
    ? { subject: 'pieces', records: all.records.slice(from, to) }
    : { subject: 'orders', records: all.records.slice(from, to) };
}

/** Goes on with what a stopped server has left; answers how many records that were. */
export async function resumeImports(store: Store): Promise<number> {
  const { settled, unsettled } = await leftJobs(store);
  for (const job of unsettled) await endJob(store, job);
  let count = 0;
  for (const job of settled) {
    const { added, changed, refused } = await finish(store, job);
    count += added + changed + refused - job.added - job.changed - job.refused;
  }
  return count;
}

async function finish(store: Store, job: Omit<ImportJob, keyof Stored>, progress?: Progress): Promise<Stored> {
  for (let done = 0; ;) {
    const count = await inTransaction(store, async (transaction) => {
      const bodies = await takeRecords(transaction, job.id, CHUNK);
      if (bodies.length === 0) return 0;
      const records = bodies.map((body): unknown => JSON.parse(body));
      const chunk = { subject: job.subject, records } as Some;
      await countStored(transaction, job.id, await storeChunk(transaction, chunk, job));
      return bodies.length;
    });
    if (count === 0) break;
    done += count;
    progress?.(job.total + done, 2 * job.total);
    await setImmediate();
  }
  const stored = await jobNow(store, job.id);
  await endJob(store, job.id);
  return stored;
}

/**
 * An order that a bench has taken since it was looked at stays as the bench packs it, and one that asks for a piece that some
 * other order has got since stays out; both count as refused.
 */
async function storeChunk(
  transaction: StoreOrTransaction,
  chunk: Some,
  { at, since }: Pick<ImportJob, 'at' | 'since'>,
): Promise<Stored> {
  if (chunk.subject === 'pieces') {
    const skus = chunk.records.map(({ sku }) => sku);
    const changed = (await findPieces(transaction, skus)).size;
    await savePieces(transaction, chunk.records);
    return { added: chunk.records.length - changed, changed, refused: 0 };
  }
  const ids = chunk.records.map(({ id }) => id);
  const states = await statesOf(transaction, ids);
  const skus = chunk.records.flatMap(({ pieces }) => pieces.map(({ sku }) => sku));
  const gone = await heldSince(transaction, { skus, since, exceptAt: at });
  const storable = chunk.records.filter(({ id, pieces }) => {
    const state = states.get(id);
    if (state !== undefined && !CHANGEABLE.has(state)) return false;
    return !pieces.some(({ sku }) => (gone.get(sku) ?? id) !== id);
  });
  await saveOrders(transaction, storable, at);
  await carryToRests(transaction, storable, at);
  const added = storable.filter(({ id }) => !states.has(id)).length;
  return { added, changed: storable.length - added, refused: ids.length - storable.length };
}
