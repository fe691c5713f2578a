import type { Judged } from './judge.ts';
import { labelPaper } from './label-bytes.ts';
import { labelQueue } from './label-queue.ts';
import {
  changeLabelRequest,
  labelRequestByKey,
  trackingIsBought,
  type AnsweredLabel,
} from '#server/store/label-requests.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { labelIsUsed } from '#server/store/parcels.ts';
import { addPrintJob } from '#server/store/print-jobs.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';

export interface TakeParts {
  readonly store: StoreOrTransaction;
  readonly bench: BenchConfig | undefined;
  readonly now: number;
}

/** Stores what came back for a request, in one transaction with the print job that follows from it. */
export async function takeAnswer(
  parts: TakeParts,
  key: string,
  judged: Extract<Judged, { verdict: 'answered' }>,
): Promise<'taken' | 'late' | 'number-used'> {
  const { store, now } = parts;
  const row = await labelRequestByKey(store, key);
  if (row === null || row.state === 'answered' || row.state === 'unused') return 'late';
  const { tracking, type, bytes } = judged.label;
  const what = { answer: judged.said, why: '', tracking, label_type: type, label: bytes, ended_at: now };
  if (row.state === 'withdrawn') {
    // Bought, and the parcel went on without it.
    if (tracking !== null) await changeLabelRequest(store, row.id, { ...what, state: 'unused' });
    return 'late';
  }
  if (tracking !== null && ((await labelIsUsed(store, tracking)) || (await trackingIsBought(store, tracking, key)))) {
    await changeLabelRequest(store, row.id, { state: 'dead', why: 'number-used', answer: judged.said, ended_at: now });
    return 'number-used';
  }
  await changeLabelRequest(store, row.id, { ...what, state: 'answered' });
  await printLabel(parts, row, judged.label);
  return 'taken';
}

/** Queues a label for the printer of its bench; false where that cannot print what it is. */
export async function printLabel(
  { store, bench, now }: TakeParts,
  row: { readonly run: string; readonly number: number; readonly order_id: string },
  label: AnsweredLabel,
): Promise<boolean> {
  if (bench === undefined || label.type === null || label.bytes === null) return false;
  const bytes = await labelPaper(label.type, label.bytes, bench);
  if (bytes === null) return false;
  const { run, number, order_id: order } = row;
  const job = { bench: labelQueue(bench.id), run, parcel: number - 1, bytes, now };
  await addPrintJob(store, { ...job, title: `label ${order}/${String(number)}` });
  return true;
}
