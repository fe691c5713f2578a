import type { PrintDocument } from '#drivers/printer/document.ts';
import { encodeWithReport } from '#drivers/printer/encode.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { addPrintJob } from '#server/store/print-jobs.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';

/** Queues at a bench's printer a document that belongs to no run, with what could not be printed as it is. */
export async function queueDocument(
  store: StoreOrTransaction,
  bench: BenchConfig,
  document: PrintDocument,
  now: number,
): Promise<void> {
  const { bytes, replaced } = encodeWithReport(document, bench.printer);
  const { title } = document;
  await addPrintJob(store, { bench: bench.id, run: null, parcel: 0, bytes, title, replaced: replaced.join(' '), now });
}
