import { shopDayAndTime } from './shop-time.ts';
import { copyMarkDocument } from '#drivers/printer/documents/copy-mark.ts';
import { encode } from '#drivers/printer/encode.ts';
import { PAPER_WORDS } from '#drivers/printer/words.ts';
import type { Store } from '#server/store/open.ts';
import { addPrintJob, printedJob } from '#server/store/print-jobs.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';

/**
 * Queues what came out before once more, byte for byte, below a head that says that it is a copy. False when the job was
 * never printed. A copy belongs to no run: whatever becomes of it, the parcel's own slip stands as it is.
 */
export async function queueCopy(
  store: Store,
  shop: Shop,
  bench: BenchConfig,
  asked: { readonly job: number; readonly language: Language; readonly now: number },
): Promise<boolean> {
  const { language, now } = asked;
  const job = await printedJob(store, bench.id, asked.job);
  if (job === null) return false;
  const words = PAPER_WORDS[language];
  const of = job.order === null ? job.title : `${words.packingSlip} ${job.order}`;
  const when = shopDayAndTime(job.endedAt ?? job.madeAt, shop.timeZone);
  const mark = copyMarkDocument({ language, of, when });
  const head = encode(mark, bench.printer);
  const bytes = new Uint8Array(head.length + job.bytes.length);
  bytes.set(head);
  bytes.set(job.bytes, head.length);
  await addPrintJob(store, { bench: bench.id, run: null, parcel: 0, bytes, title: mark.title, now });
  return true;
}
