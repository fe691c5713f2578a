import type { StoreOrTransaction } from '#server/store/open.ts';
import { markPrintJob } from '#server/store/print-jobs.ts';
import type { LabelPaper } from '#shared/wire/label.ts';

/** Labels wait in a queue of their own beside the slips of their bench. */
export function labelQueue(bench: string): string {
  return `${bench}#label`;
}

export interface LabelPaperState {
  readonly paper: LabelPaper;
  readonly why: string;
  readonly job: number | null;
}

const NO_PAPER: LabelPaperState = { paper: 'none', why: '', job: null };

/** What became of a parcel's label on its way to paper. */
export async function labelPaperOf(
  store: StoreOrTransaction,
  { bench, run, number }: { readonly bench: string; readonly run: string; readonly number: number },
): Promise<LabelPaperState> {
  const row = await store
    .selectFrom('print_job')
    .select(['id', 'state', 'why'])
    .where('bench', '=', labelQueue(bench))
    .where('run', '=', run)
    .where('parcel', '=', number - 1)
    .orderBy('id', 'desc')
    .executeTakeFirst();
  if (row === undefined) return NO_PAPER;
  // What certainly did not print is tried again and waits with its reason.
  const failed = row.state === 'queued' && row.why !== '';
  return { paper: failed ? 'failed' : row.state === 'sending' ? 'queued' : row.state, why: row.why, job: row.id };
}

/** A label that was scanned off its paper was printed, whatever its printer said; one that still waits is not needed. */
export async function labelWasSeen(
  store: StoreOrTransaction,
  of: { readonly bench: string; readonly run: string; readonly number: number },
  now: number,
): Promise<void> {
  const { job, paper } = await labelPaperOf(store, of);
  if (job === null || paper === 'printed') return;
  const state = paper === 'unknown' ? 'printed' : 'failed';
  await markPrintJob(store, job, { state, why: state === 'printed' ? 'scanned' : 'not needed any more', now });
}
