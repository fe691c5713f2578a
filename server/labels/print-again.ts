import { labelPaperOf } from './label-queue.ts';
import { printLabel } from './take-answer.ts';
import { labelRequestByKey } from '#server/store/label-requests.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { markPrintJob } from '#server/store/print-jobs.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';

/** Queues a label anew. One that still waits is not doubled: its queue tries it again anyway. */
export async function queueLabelAgain(
  store: StoreOrTransaction,
  { bench, key, now }: { readonly bench: BenchConfig; readonly key: string; readonly now: number },
): Promise<'queued' | 'not-printable' | 'unknown'> {
  const row = await labelRequestByKey(store, key);
  if (row?.bench !== bench.id) return 'unknown';
  const { job, paper } = await labelPaperOf(store, row);
  if (paper === 'queued' || paper === 'failed') {
    const waits = await store
      .selectFrom('print_job')
      .select('id')
      .where('id', '=', job)
      .where('state', 'in', ['queued', 'sending'])
      .executeTakeFirst();
    if (waits !== undefined) return 'queued';
  }
  if (job !== null && paper === 'unknown') {
    await markPrintJob(store, job, { state: 'failed', why: 'printed again', now });
  }
  const label = { tracking: row.tracking, type: row.label_type, bytes: row.label };
  return (await printLabel({ store, bench, now }, row, label)) ? 'queued' : 'not-printable';
}
