import { setImmediate } from 'node:timers/promises';
import { sql } from 'kysely';
import { dialectOf } from './dialect.ts';
import { beginLease, endLease } from './leases.ts';
import type { StoreOrTransaction } from './open.ts';
import type { Order, OrderState } from '#shared/planning/types.ts';

/** An order with what the shop has done about it. */
export interface StoredOrder {
  readonly order: Order;
  readonly state: OrderState;
  readonly bench: string | null;
  readonly run: string | null;
  readonly reason: string | null;
  /** of the set-aside shelf; null where it lies on no place of it */
  readonly asidePlace: number | null;
  readonly version: number;
}

interface OrderColumns {
  readonly body: string;
  readonly state: OrderState;
  readonly bench: string | null;
  readonly run: string | null;
  readonly reason: string | null;
  readonly aside_place: number | null;
  readonly version: number;
}

function fromRow(row: OrderColumns): StoredOrder {
  return {
    order: JSON.parse(row.body) as Order,
    state: row.state,
    bench: row.bench,
    run: row.run,
    reason: row.reason,
    asidePlace: row.aside_place,
    version: row.version,
  };
}

export async function findOrder(store: StoreOrTransaction, id: string): Promise<StoredOrder | null> {
  const row = await store.selectFrom('shop_order').selectAll().where('id', '=', id).executeTakeFirst();
  return row === undefined ? null : fromRow(row);
}

export async function allOrders(store: StoreOrTransaction): Promise<readonly StoredOrder[]> {
  const rows = await store.selectFrom('shop_order').selectAll().orderBy('ship_by').orderBy('id').execute();
  return rows.map(fromRow);
}

/** Open orders, the soonest to leave first. */
export async function openOrders(store: StoreOrTransaction, most: number): Promise<readonly StoredOrder[]> {
  const rows = await store
    .selectFrom('shop_order')
    .selectAll()
    .where('state', '=', 'open')
    .orderBy('ship_by')
    .orderBy('id')
    .limit(most)
    .execute();
  return rows.map(fromRow);
}

/** The order that still waits for a piece, the soonest to leave first; null when none does. */
export async function orderWaitingFor(store: StoreOrTransaction, sku: string): Promise<string | null> {
  const row = await store
    .selectFrom('order_piece')
    .innerJoin('shop_order', 'shop_order.id', 'order_piece.order_id')
    .select('shop_order.id')
    .where('order_piece.sku', '=', sku)
    .where('shop_order.state', '=', 'open')
    .orderBy('shop_order.ship_by')
    .executeTakeFirst();
  return row?.id ?? null;
}

/** Adds an order, or changes it in place without touching what was done about it. */
export async function saveOrder(store: StoreOrTransaction, order: Order, now: number): Promise<void> {
  await saveOrders(store, [order], now);
}

/** The same for some orders, each with a number of its own: as many as one statement takes. */
export async function saveOrders(store: StoreOrTransaction, orders: readonly Order[], now: number): Promise<void> {
  if (orders.length === 0) return;
  await store
    .insertInto('shop_order')
    .values(
      orders.map((order) => ({
        id: order.id,
        body: JSON.stringify(order),
        state: 'open' as const,
        ship_by: order.shipBy,
        bench: null,
        run: null,
        reason: null,
        changed_at: now,
        came_at: now,
      })),
    )
    .onConflict((conflict) =>
      conflict.column('id').doUpdateSet((column) => ({
        body: column.ref('excluded.body'),
        ship_by: column.ref('excluded.ship_by'),
        changed_at: now,
        version: sql<number>`shop_order.version + 1`,
      })),
    )
    .execute();
  const ids = orders.map(({ id }) => id);
  await store.deleteFrom('order_piece').where('order_id', 'in', ids).execute();
  const pieces = orders.flatMap(({ id, pieces: lines }) =>
    [...new Set(lines.map((line) => line.sku))].map((sku) => ({ order_id: id, sku })),
  );
  if (pieces.length > 0) await store.insertInto('order_piece').values(pieces).execute();
}

/** The state of each of some orders that exists. */
export async function statesOf(
  store: StoreOrTransaction,
  ids: readonly string[],
): Promise<ReadonlyMap<string, OrderState>> {
  const rows = await store.selectFrom('shop_order').select(['id', 'state']).where('id', 'in', ids).execute();
  return new Map(rows.map(({ id, state }) => [id, state]));
}

/** An order in one of these states has its pieces. */
const HOLDING: ReadonlySet<string> = new Set(['open', 'packing', 'set-aside', 'combined', 'packed']);

/**
 * Pieces of some that an order has got, or kept, in a change since a time; with that order. What was changed at `exceptAt` is
 * left out.
 */
export async function heldSince(
  store: StoreOrTransaction,
  asked: { readonly skus: readonly string[]; readonly since: number; readonly exceptAt: number },
): Promise<ReadonlyMap<string, string>> {
  const rows = await store
    .selectFrom('order_piece')
    .innerJoin('shop_order', 'shop_order.id', 'order_piece.order_id')
    .select(['order_piece.sku', 'shop_order.id', 'shop_order.state'])
    .where('order_piece.sku', 'in', asked.skus)
    .where('shop_order.changed_at', '>=', asked.since)
    .where('shop_order.changed_at', '!=', asked.exceptAt)
    .execute();
  // Asked for its state, SQLite would begin with every order of that state instead of with these few pieces.
  return new Map(rows.filter(({ state }) => HOLDING.has(state)).map(({ sku, id }) => [sku, id]));
}

/** Takes an order for a bench that waits and that nobody folds ahead just now. True for exactly one of any number of benches that try. */
export async function claimOrder(
  store: StoreOrTransaction,
  claim: { readonly order: string; readonly bench: string; readonly run: string; readonly now: number },
): Promise<boolean> {
  if (dialectOf(store) === 'postgres') {
    // One that another bench is just taking is not waited for.
    const query = store.selectFrom('shop_order').select('id').where('id', '=', claim.order).forUpdate().skipLocked();
    if ((await query.executeTakeFirst()) === undefined) return false;
  }
  const result = await store
    .updateTable('shop_order')
    .set({ state: 'packing', bench: claim.bench, run: claim.run, reason: null, changed_at: claim.now })
    .where('id', '=', claim.order)
    .where('state', 'in', ['open', 'set-aside'])
    .where('id', 'not in', (query) =>
      query.selectFrom('folded_ahead').select('order_id').where('state', '=', 'folding'),
    )
    .executeTakeFirst();
  if (result.numUpdatedRows !== 1n) return false;
  await beginLease(store, claim, claim.now);
  return true;
}

/** Ends what a bench was doing with an order: back to open, set aside with a reason, or packed. */
export async function closeOrder(
  store: StoreOrTransaction,
  end: {
    readonly order: string;
    readonly state: Exclude<OrderState, 'packing'>;
    readonly reason: string | null;
    readonly now: number;
    /** of the set-aside shelf */
    readonly asidePlace?: number;
  },
): Promise<void> {
  const { state, reason, now, asidePlace = null } = end;
  await endLease(store, end.order);
  await store
    .updateTable('shop_order')
    .set({ state, reason, bench: null, changed_at: now, aside_place: asidePlace })
    .where('id', '=', end.order)
    .execute();
  if (end.state !== 'packed') return;
  // What was packed as one closes every order that it is made of.
  await store
    .updateTable('shop_order')
    .set({ state: 'packed', changed_at: end.now })
    .where('id', 'in', (query) =>
      query.selectFrom('combined_order').select('member').where('combination', '=', end.order),
    )
    .where('state', '=', 'combined')
    .execute();
}

/** How many orders are at a bench, and how many lie on the set-aside shelf. */
export async function countInHand(
  store: StoreOrTransaction,
): Promise<Readonly<Record<'packing' | 'set-aside', number>>> {
  const counts = { packing: 0, 'set-aside': 0 };
  const rows = await store
    .selectFrom('shop_order')
    .select((select) => ['state', select.fn.countAll<number>().as('count')])
    .where('state', 'in', ['packing', 'set-aside'])
    .groupBy('state')
    .execute();
  for (const row of rows) counts[row.state as keyof typeof counts] = row.count;
  return counts;
}

/** How many orders wait, are at a bench, and lie on the set-aside shelf. */
export async function countUnpacked(
  store: StoreOrTransaction,
): Promise<Readonly<Record<'open' | 'packing' | 'set-aside', number>>> {
  const counts = { open: 0, packing: 0, 'set-aside': 0 };
  const rows = await store
    .selectFrom('shop_order')
    .select((select) => ['state', select.fn.countAll<number>().as('count')])
    .where('state', 'in', ['open', 'packing', 'set-aside'])
    .groupBy('state')
    .execute();
  for (const row of rows) counts[row.state as keyof typeof counts] = row.count;
  return counts;
}

/** So many are some milliseconds. */
const VERSIONS_AT_ONCE = 2000;

/**
 * Every open order by id, with its version: what a reader compares with what it has read before. Of very many, other work gets
 * its turn in between.
 */
export async function openVersions(store: StoreOrTransaction): Promise<ReadonlyMap<string, number>> {
  const versions = new Map<string, number>();
  for (let last: { readonly ship_by: string; readonly id: string } | undefined; ;) {
    const query = store
      .selectFrom('shop_order')
      .select(['id', 'ship_by', 'version'])
      .where('state', '=', 'open')
      .orderBy('ship_by')
      .orderBy('id')
      .limit(VERSIONS_AT_ONCE);
    const rows = await (
      last === undefined ? query : query.where(sql<boolean>`(ship_by, id) > (${last.ship_by}, ${last.id})`)
    ).execute();
    for (const { id, version } of rows) versions.set(id, version);
    if (rows.length < VERSIONS_AT_ONCE) return versions;
    last = rows.at(-1);
    await setImmediate();
  }
}

/** An order as it waits: with its age and version. */
export interface QueuedRow {
  readonly order: Order;
  readonly version: number;
  /** epoch ms */
  readonly cameAt: number;
}

/** Those of some orders that are open, in no order. */
export async function findQueued(store: StoreOrTransaction, ids: readonly string[]): Promise<readonly QueuedRow[]> {
  const found: QueuedRow[] = [];
  for (let at = 0; at < ids.length; at += CHUNK) {
    const rows = await store
      .selectFrom('shop_order')
      .select(['body', 'state', 'version', 'came_at', 'changed_at'])
      .where('id', 'in', ids.slice(at, at + CHUNK))
      .execute();
    for (const { body, state, version, came_at, changed_at } of rows) {
      // Asked for it, SQLite would begin with every open order.
      if (state === 'open') found.push({ order: JSON.parse(body) as Order, version, cameAt: came_at ?? changed_at });
    }
    // Of very many, other work gets its turn in between.
    if (at + CHUNK < ids.length) await setImmediate();
  }
  return found;
}

/** SQLite takes a bounded number of parameters in one statement. */
const CHUNK = 400;

/**
 * Opens again every order that was claimed but whose run never began: the server stopped between the two.
 * @returns the ids of the orders that were released
 */
export async function releaseUnbegun(
  store: StoreOrTransaction,
  now: number,
  benches: readonly string[] | null = null,
): Promise<readonly string[]> {
  const unbegun = await store
    .selectFrom('shop_order')
    .select('id')
    .where('state', '=', 'packing')
    .where('run', 'not in', (query) => query.selectFrom('run').select('id'))
    .$if(benches !== null, (query) => query.where('bench', 'in', benches ?? []))
    .execute();
  for (const { id } of unbegun) await closeOrder(store, { order: id, state: 'open', reason: null, now });
  return unbegun.map(({ id }) => id);
}
