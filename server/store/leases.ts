import type { StoreOrTransaction } from './open.ts';

/** Whose hands an order is in. */
export interface Claim {
  readonly order: string;
  readonly bench: string;
  readonly run: string;
}

/** A bench of which nothing was heard for so long may have died. */
export const LEASE_MS = 90_000;
/** Between the two scans that take an order over. */
const OFFER_MS = 60_000;

/** Belongs into the transaction that claims the order. */
export async function beginLease(store: StoreOrTransaction, { order, bench, run }: Claim, now: number): Promise<void> {
  const lease = { bench, run, until: now + LEASE_MS, offered_to: null, offered_at: null };
  await store
    .insertInto('claim_lease')
    .values({ order_id: order, ...lease })
    .onConflict((conflict) => conflict.column('order_id').doUpdateSet(lease))
    .execute();
}

export async function endLease(store: StoreOrTransaction, order: string): Promise<void> {
  await store.deleteFrom('claim_lease').where('order_id', '=', order).execute();
}

/**
 * Says that a bench is there and has an order in hand. Inside a transaction it also holds the claim until its end, so that
 * nobody takes the order over meanwhile.
 * @returns false when the order is not in that bench's hands any more
 */
export async function holdClaim(store: StoreOrTransaction, claim: Claim, now: number): Promise<boolean> {
  const { numUpdatedRows } = await store
    .updateTable('claim_lease')
    .set({ until: now + LEASE_MS, offered_to: null, offered_at: null })
    .where('order_id', '=', claim.order)
    .where('bench', '=', claim.bench)
    .where('run', '=', claim.run)
    .executeTakeFirst();
  return numUpdatedRows === 1n;
}

/**
 * Another bench asks for an order whose bench is silent. The first time it is told so; asked again soon after by the same
 * bench the order is its own. Exactly one of any number of benches that ask gets it. A lease that ends
 * later than any can was given before the clock was set back and says nothing.
 */
export async function takeOverClaim(
  store: StoreOrTransaction,
  asked: {
    readonly order: string;
    readonly from: string;
    readonly run: string;
    readonly to: string;
    readonly now: number;
  },
): Promise<'offered' | 'taken' | 'held'> {
  const { order, from, run, to, now } = asked;
  const silent = () =>
    store
      .updateTable('claim_lease')
      .where('order_id', '=', order)
      .where('bench', '=', from)
      .where('run', '=', run)
      .where((where) => where.or([where('until', '<', now), where('until', '>', now + 2 * LEASE_MS)]));
  const { numUpdatedRows: taken } = await silent()
    .set({ bench: to, until: now + LEASE_MS, offered_to: null, offered_at: null })
    .where('offered_to', '=', to)
    .where('offered_at', '>', now - OFFER_MS)
    .where('offered_at', '<=', now)
    .executeTakeFirst();
  if (taken === 1n) {
    await store.updateTable('shop_order').set({ bench: to, changed_at: now }).where('id', '=', order).execute();
    await store.updateTable('run').set({ bench: to }).where('id', '=', run).execute();
    await store.updateTable('label_request').set({ bench: to }).where('run', '=', run).execute();
    return 'taken';
  }
  const { numUpdatedRows: offered } = await silent().set({ offered_to: to, offered_at: now }).executeTakeFirst();
  return offered === 1n ? 'offered' : 'held';
}
