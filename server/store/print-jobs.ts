import type { StoreOrTransaction } from './open.ts';
import type { PrintJobState } from './schema.ts';

export interface PrintJob {
  readonly id: number;
  readonly run: string | null;
  readonly parcel: number;
  readonly bytes: Uint8Array;
}

export async function addPrintJob(
  store: StoreOrTransaction,
  job: {
    readonly bench: string;
    readonly run: string | null;
    readonly parcel: number;
    readonly bytes: Uint8Array;
    readonly now: number;
    /** what it is, for people; a slip is named by its run */
    readonly title?: string;
    /** characters that could not be printed as they are, parted by spaces */
    readonly replaced?: string;
  },
): Promise<void> {
  const { now, ...rest } = job;
  await store
    .insertInto('print_job')
    .values({ ...rest, state: 'queued', why: '', made_at: now, ended_at: null })
    .execute();
}

/** The oldest job of a bench that waits for its printer. */
export async function nextPrintJob(store: StoreOrTransaction, bench: string): Promise<PrintJob | null> {
  const row = await store
    .selectFrom('print_job')
    .select(['id', 'run', 'parcel', 'bytes'])
    .where('bench', '=', bench)
    .where('state', '=', 'queued')
    .orderBy('id')
    .limit(1)
    .executeTakeFirst();
  return row ?? null;
}

export async function markPrintJob(
  store: StoreOrTransaction,
  id: number,
  mark: { readonly state: PrintJobState; readonly why: string; readonly now: number },
): Promise<void> {
  const ended = mark.state === 'queued' || mark.state === 'sending' ? null : mark.now;
  await store
    .updateTable('print_job')
    .set({ state: mark.state, why: mark.why, ended_at: ended })
    .where('id', '=', id)
    .execute();
}

/** The bytes of one job of a bench, whatever became of it. */
export async function printJobBytes(
  store: StoreOrTransaction,
  bench: string,
  id: number,
): Promise<{ readonly bytes: Uint8Array; readonly title: string } | null> {
  const row = await store
    .selectFrom('print_job')
    .select(['bytes', 'title'])
    .where('bench', '=', bench)
    .where('id', '=', id)
    .executeTakeFirst();
  return row ?? null;
}

/** A job of a bench that was printed; null when it was not, or not yet. */
export async function printedJob(
  store: StoreOrTransaction,
  bench: string,
  id: number,
): Promise<{
  readonly bytes: Uint8Array;
  readonly title: string;
  readonly order: string | null;
  readonly madeAt: number;
  readonly endedAt: number | null;
} | null> {
  const row = await store
    .selectFrom('print_job')
    .leftJoin('run', 'run.id', 'print_job.run')
    .select([
      'print_job.bytes as bytes',
      'print_job.title as title',
      'run.order_id as order',
      'print_job.made_at as madeAt',
      'print_job.ended_at as endedAt',
    ])
    .where('print_job.bench', '=', bench)
    .where('print_job.id', '=', id)
    .where('print_job.state', '=', 'printed')
    .executeTakeFirst();
  return row ?? null;
}

/** Jobs that were on their way when the server stopped: nobody knows whether they were printed. */
export async function interruptedPrintJobs(store: StoreOrTransaction, bench: string): Promise<readonly PrintJob[]> {
  return store
    .selectFrom('print_job')
    .select(['id', 'run', 'parcel', 'bytes'])
    .where('bench', '=', bench)
    .where('state', '=', 'sending')
    .execute();
}

/** Jobs of a parcel that still wait are dropped when a newer slip takes their place. */
export async function dropWaiting(store: StoreOrTransaction, run: string, parcel: number, now: number): Promise<void> {
  await store
    .updateTable('print_job')
    .set({ state: 'failed', why: 'replaced by a newer slip', ended_at: now })
    .where('run', '=', run)
    .where('parcel', '=', parcel)
    .where('state', '=', 'queued')
    .execute();
}

/** A job as a person looks at it. */
export interface PrintJobEntry {
  readonly id: number;
  readonly order: string | null;
  readonly parcel: number;
  readonly title: string;
  readonly replaced: string;
  readonly state: PrintJobState;
  readonly why: string;
  readonly madeAt: number;
  readonly endedAt: number | null;
}

/** Every job of a bench that waits or is unsettled, then the newest others, newest first. */
export async function printJobs(
  store: StoreOrTransaction,
  bench: string,
  most: number,
): Promise<readonly PrintJobEntry[]> {
  const rows = await store
    .selectFrom('print_job')
    .leftJoin('run', 'run.id', 'print_job.run')
    .select([
      'print_job.id as id',
      'run.order_id as order',
      'print_job.parcel as parcel',
      'print_job.title as title',
      'print_job.replaced as replaced',
      'print_job.state as state',
      'print_job.why as why',
      'print_job.made_at as madeAt',
      'print_job.ended_at as endedAt',
    ])
    .where('print_job.bench', '=', bench)
    .orderBy((order) => order.case().when('state', 'in', ['queued', 'sending', 'unknown']).then(0).else(1).end())
    .orderBy('print_job.id', 'desc')
    .limit(most)
    .execute();
  return rows;
}

/**
 * Settles a job of which nobody knew whether it was printed, as a person saw it: it was, or it is to be printed again,
 * as a new job. Null when the job is not unsettled (any more): two people settling the same one act once.
 */
export async function settlePrintJob(
  store: StoreOrTransaction,
  settled: { readonly bench: string; readonly id: number; readonly as: 'printed' | 'again'; readonly now: number },
): Promise<PrintJob | null> {
  const job = await store
    .selectFrom('print_job')
    .select(['id', 'run', 'parcel', 'bytes', 'title', 'replaced'])
    .where('id', '=', settled.id)
    .where('bench', '=', settled.bench)
    .where('state', '=', 'unknown')
    .executeTakeFirst();
  if (job === undefined) return null;
  const state = settled.as === 'printed' ? 'printed' : 'failed';
  const why = settled.as === 'printed' ? 'seen by a person' : 'printed again';
  await markPrintJob(store, job.id, { state, why, now: settled.now });
  if (settled.as === 'again') {
    const { run, parcel, bytes, title, replaced } = job;
    await addPrintJob(store, { bench: settled.bench, run, parcel, bytes, title, replaced, now: settled.now });
  }
  return job;
}
