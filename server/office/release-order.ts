import type { Station } from '#server/runs/station.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { recordChange } from '#server/store/changes.ts';
import type { Store } from '#server/store/open.ts';
import { closeOrder, findOrder } from '#server/store/orders.ts';
import { endRun } from '#server/store/runs.ts';

export type ReleaseOutcome =
  | 'released'
  | 'unknown-order'
  /** no bench has it in hand: somebody was quicker */
  | 'not-packing'
  /** a parcel of it is packed and labelled: who has it must go on, or set it aside */
  | 'parcel-finished';

/**
 * Takes an order away from the bench that has it in hand, for any bench to pack: the bench's tablet has died, or its packer
 * has left. The bench forgets the order in the transaction that opens it again; one that is no longer in the shop's files
 * forgets it when it comes back. Who did it is kept in the same transaction.
 * @param by staff id of a supervisor or the owner
 */
export async function releaseOrder(
  store: Store,
  stations: ReadonlyMap<string, Station>,
  id: string,
  by: string,
  now: number,
): Promise<ReleaseOutcome> {
  const stored = await findOrder(store, id);
  if (stored === null) return 'unknown-order';
  if (stored.state !== 'packing') return 'not-packing';
  const station = stations.get(stored.bench ?? '');
  if (station !== undefined) {
    const { accepted } = await station.run.apply({ type: 'released-by-office', order: id, by });
    if (accepted) return 'released';
    return station.run.state.order?.id === id ? 'parcel-finished' : 'not-packing';
  }
  return inTransaction(store, async (transaction): Promise<ReleaseOutcome> => {
    const still = await findOrder(transaction, id);
    if (still?.state !== 'packing' || still.run !== stored.run) return 'not-packing';
    await closeOrder(transaction, { order: id, state: 'open', reason: null, now });
    if (still.run !== null) await endRun(transaction, still.run, now);
    const details = { bench: still.bench ?? '' };
    await recordChange(transaction, { what: 'order-released', about: id, who: by, from: 'office', details }, now);
    return 'released';
  });
}
