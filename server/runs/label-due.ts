import { labelWasSeen } from '#server/labels/label-queue.ts';
import { labelRequestOf, withdrawLabelRequests } from '#server/store/label-requests.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { labelIsUsed, type FinishedParcel } from '#server/store/parcels.ts';
import type { RunState } from '#shared/run/types.ts';

/** The number that was bought for the parcel at hand; null where none was, or not yet. */
export async function labelDue(store: StoreOrTransaction, { run, parcel, step }: RunState): Promise<string | null> {
  if (run === null || (step.at !== 'seal' && step.at !== 'label')) return null;
  const request = await labelRequestOf(store, run, parcel + 1);
  return request?.state === 'answered' ? request.tracking : null;
}

/**
 * A parcel is finished: what was asked for and not answered is not needed any more, and a label that was bought is the one
 * that is on it, also where it was checked by eye.
 * @param scanned the number on its label; null when it was checked by eye
 * @returns the number that is kept with the parcel
 */
export async function settleLabel(
  store: StoreOrTransaction,
  { run, number, bench }: FinishedParcel,
  scanned: string | null,
  now: number,
): Promise<string | null> {
  const request = await labelRequestOf(store, run, number);
  if (request === null) return scanned;
  if (request.state !== 'answered') {
    await withdrawLabelRequests(store, run, now, number);
    return scanned;
  }
  await labelWasSeen(store, { bench, run, number }, now);
  const { tracking } = request;
  // A number can only be on one parcel, whoever sold it twice.
  return tracking === null || (await labelIsUsed(store, tracking)) ? scanned : tracking;
}
