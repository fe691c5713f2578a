import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { closeOrder, findOrder, saveOrder } from '#server/store/orders.ts';
import { recordChange } from '#server/store/changes.ts';
import { foldedAheadOf } from '#server/store/folded-ahead.ts';
import { divide, restNumbers } from '#shared/partial/divide.ts';
import type { Order } from '#shared/planning/types.ts';

export type LeaveOutOutcome =
  | { readonly done: true; readonly follows: string | null }
  | {
      readonly done: false;
      readonly why:
        | 'unknown-order'
        | 'in-hand'
        | 'not-waiting'
        | 'combined'
        | 'parcel-finished'
        | 'folded-ahead'
        | 'not-its-pieces'
        /** it would be sent without anything */
        | 'nothing-left'
        | 'no-number';
    };

export type HereOutcome = 'done' | 'unknown-order' | 'not-waiting';

export interface LeavingOut {
  readonly order: string;
  readonly skus: readonly string[];
  /** whether the pieces are sent later; else the order goes without them for good */
  readonly follow: boolean;
  /** staff id */
  readonly by: string | null;
}

type Noting = (transaction: StoreOrTransaction, follows: string | null) => Promise<void>;

/**
 * Sends an order that waits without some of its pieces: it is open again with the others, and what follows is an order of its
 * own that is set aside until its pieces are there. All of it, or nothing.
 */
export function leaveOut(
  store: Store,
  { order: id, skus, follow, by }: LeavingOut,
  now: number,
  note: Noting,
): Promise<LeaveOutOutcome> {
  return inTransaction(store, async (transaction): Promise<LeaveOutOutcome> => {
    const refused = (why: Extract<LeaveOutOutcome, { done: false }>['why']) => ({ done: false, why }) as const;
    const stored = await findOrder(transaction, id);
    if (stored === null) return refused('unknown-order');
    const { order, state, asidePlace } = stored;
    if (state === 'packing') return refused('in-hand');
    if (state !== 'open' && state !== 'set-aside') return refused('not-waiting');
    if (order.combines !== undefined) return refused('combined');
    const parcel = await transaction.selectFrom('parcel').select('id').where('order_id', '=', id).executeTakeFirst();
    if (parcel !== undefined) return refused('parcel-finished');
    if ((await foldedAheadOf(transaction, id)) !== null) return refused('folded-ahead');
    const leaving = new Set(skus);
    if (leaving.size === 0 || [...leaving].some((sku) => !order.pieces.some((piece) => piece.sku === sku))) {
      return refused('not-its-pieces');
    }
    if (order.pieces.every(({ sku }) => leaving.has(sku))) return refused('nothing-left');
    const follows = follow ? await freeNumber(transaction, order.restOf ?? id) : null;
    if (follow && follows === null) return refused('no-number');
    const { first, rest } = divide(order, { skus: leaving, follows, by, at: now });
    await saveOrder(transaction, first, now);
    // Its pieces lie where they lay: the bench that takes it is told so.
    const place = asidePlace === null ? {} : { asidePlace };
    await closeOrder(transaction, { order: id, state: 'open', reason: null, now, ...place });
    if (rest !== null) {
      await saveOrder(transaction, rest, now);
      await closeOrder(transaction, { order: rest.id, state: 'set-aside', reason: 'missing', now });
    }
    await note(transaction, follows);
    return { done: true, follows };
  });
}

/**
 * The same at the bench that has the order in hand, within its own transaction: it keeps the order with the other pieces. Said
 * again after a stop in between, it answers what was done. Null where it cannot be divided.
 */
export async function goWithoutInHand(
  transaction: StoreOrTransaction,
  { order: id, sku, by }: { readonly order: string; readonly sku: string; readonly by: string | null },
  now: number,
): Promise<{ readonly first: Order; readonly follows: string } | null> {
  const stored = await findOrder(transaction, id);
  if (stored?.state !== 'packing' || stored.order.combines !== undefined) return null;
  const { order } = stored;
  const before = order.leftOut?.find((each) => each.sku === sku)?.follows;
  if (before != null) return { first: order, follows: before };
  if (!order.pieces.some((piece) => piece.sku === sku) || order.pieces.every((piece) => piece.sku === sku)) return null;
  const follows = await freeNumber(transaction, order.restOf ?? id);
  if (follows === null) return null;
  const { first, rest } = divide(order, { skus: new Set([sku]), follows, by, at: now });
  await saveOrder(transaction, first, now);
  if (rest !== null) {
    await saveOrder(transaction, rest, now);
    await closeOrder(transaction, { order: rest.id, state: 'set-aside', reason: 'missing', now });
  }
  const details = { pieces: sku, follows };
  await recordChange(transaction, { what: 'order-sent-in-part', about: id, who: by, from: 'bench', details }, now);
  return { first, follows };
}

/** The pieces that an order went without are there: what follows waits for a bench like any other order. */
export function restIsHere(
  store: Store,
  id: string,
  now: number,
  note: (transaction: StoreOrTransaction) => Promise<void>,
): Promise<HereOutcome> {
  return inTransaction(store, async (transaction): Promise<HereOutcome> => {
    const stored = await findOrder(transaction, id);
    if (stored === null) return 'unknown-order';
    if (stored.order.restOf === undefined || stored.state !== 'set-aside') return 'not-waiting';
    const place = stored.asidePlace === null ? {} : { asidePlace: stored.asidePlace };
    await closeOrder(transaction, { order: id, state: 'open', reason: null, now, ...place });
    await note(transaction);
    return 'done';
  });
}

/** A changed address of an order is also that of what follows it and still waits. */
export async function carryToRests(
  transaction: StoreOrTransaction,
  orders: readonly Order[],
  now: number,
): Promise<void> {
  for (const { leftOut = [], buyer, address, to } of orders) {
    const rests = new Set(leftOut.flatMap(({ follows }) => follows ?? []));
    for (const id of rests) {
      const stored = await findOrder(transaction, id);
      if (stored === null || (stored.state !== 'open' && stored.state !== 'set-aside')) continue;
      await saveOrder(transaction, { ...stored.order, buyer, address, to }, now);
    }
  }
}

async function freeNumber(transaction: StoreOrTransaction, id: string): Promise<string | null> {
  for (const number of restNumbers(id)) {
    const piece = await transaction.selectFrom('piece').select('sku').where('sku', '=', number).executeTakeFirst();
    if (piece === undefined && (await findOrder(transaction, number)) === null) return number;
  }
  return null;
}
